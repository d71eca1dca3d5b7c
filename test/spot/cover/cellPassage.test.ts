import { describe, expect, it } from 'vitest';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { CELL_FRONTS, frontShare } from '../../../sim/spot/cover/cellFront.ts';
import { cellPassage, jarSide } from '../../../sim/spot/cover/cellPassage.ts';
import { coverParams } from '../../../sim/spot/cover/coverParams.ts';
import { coverTransmittance, resinTransmittance } from '../../../sim/spot/cover/coverTransmittance.ts';
import { coverSchema } from '../../../sim/spot/cover/schema.ts';
import { domeShares } from '../../../sim/spot/shade/domeShares.ts';
import { OPEN_DOME } from '../../../sim/spot/shade/SkyDome.ts';

const GLASS = { refractiveIndex: 1.526, absorption_per_m: 10, thickness_m: 0.0025 };
const LID = { kind: 'flat' as const, ...GLASS };
const JAR = { ...GLASS, kind: 'side-lit' as const, lid: { from_deg: 56, clear: false } };
const cosine = (degrees: number) => Math.cos((degrees * Math.PI) / 180);

describe('cellPassage', () => {
  it('stays within 0.0005 of the equations at every angle', () => {
    const { share } = cellPassage(LID, 'none')!;
    for (let angle_deg = 0; angle_deg <= 90; angle_deg += 0.13) {
      const exact = coverTransmittance(angle_deg, LID).transmittance;
      expect(Math.abs(share(cosine(angle_deg), 90 - angle_deg) - exact)).toBeLessThan(5e-4);
    }
  });

  it('passes everything where there is neither cover nor loss at the front', () => {
    expect(cellPassage('none', 'none')).toBeUndefined();
  });

  it.each(['flat', 'textured', 'coated'] as const)(
    'meets a %s front behind a lid at the angle the light came in: one times the other',
    (front) => {
      const both = cellPassage(LID, front)!;
      const [lid, bare] = [cellPassage(LID, 'none')!, cellPassage('none', front)!];
      for (let angle_deg = 0; angle_deg <= 90; angle_deg += 1.3) {
        const product = lid.share(cosine(angle_deg), 20) * bare.share(cosine(angle_deg), 20);
        expect(Math.abs(both.share(cosine(angle_deg), 20) - product)).toBeLessThan(1e-3);
      }
      expect(bare.share(1, 90)).toBe(1);
      expect(both.share(1, 90)).toBeCloseTo(coverTransmittance(0, LID).transmittance, 12);
    },
  );

  it('loses most at a flat front, less at a coated, least at a textured one', () => {
    for (const angle_deg of [40, 60, 75, 85]) {
      const [flat, textured, coated] = CELL_FRONTS.map((front) => frontShare(front)?.(cosine(angle_deg)));
      expect(flat).toBeLessThan(coated!);
      expect(coated).toBeLessThan(textured!);
      expect(textured).toBeLessThan(1);
    }
  });

  it('passes a dome straight on from every side, up to the front of the cell in it', () => {
    const straight = coverTransmittance(0, GLASS).transmittance;
    const dome = { ...GLASS, kind: 'dome' as const };
    const { share } = cellPassage(dome, 'none')!;
    expect([share(0.05, 3), share(1, 50), share(0.3, -20)]).toEqual([straight, straight, straight]);
    expect(cellPassage(dome, 'flat')!.share(0.5, 3)).toBeCloseTo(straight * 0.9498, 4);
  });

  it('takes resin for the front of the cell: its loss at a slant once, and straight on only what it absorbs', () => {
    const resin = { ...GLASS, kind: 'resin' as const };
    for (const front of CELL_FRONTS) {
      const { share } = cellPassage(resin, front)!;
      for (const angle_deg of [0, 40, 60, 75, 85]) {
        const slant = resinTransmittance(angle_deg, GLASS) / resinTransmittance(0, GLASS);
        expect(share(cosine(angle_deg), 10) / share(1, 90)).toBeCloseTo(slant, 3);
      }
      expect(share(1, 90)).toBeCloseTo(Math.exp(-10 * 0.0025), 12);
    }
    // One surface where a lid over a cell has three.
    for (const cosIncidence of [0.1, 0.4, 0.7, 1]) {
      const lid = cellPassage(LID, 'flat')!.share(cosIncidence, 5);
      expect(cellPassage(resin, 'flat')!.share(cosIncidence, 5)).toBeGreaterThan(lid);
    }
  });

  it('lights a jar through its side, the lower the sun the straighter, and nothing through an opaque lid', () => {
    const { share, jump_deg } = cellPassage(JAR, 'none')!;
    expect(share(0.02, 1)).toBeCloseTo(coverTransmittance(1, GLASS).transmittance, 3);
    expect(share(0.7, 45)).toBeCloseTo(coverTransmittance(45, GLASS).transmittance, 3);
    expect(share(0.9, 57)).toBe(0);
    expect(jump_deg).toBe(56);
    const clear = { ...JAR, lid: { from_deg: 56, clear: true } };
    expect(cellPassage(clear, 'none')!.share(0.9, 57)).toBeCloseTo(
      coverTransmittance(33, GLASS).transmittance,
      3,
    );
    // From below light comes in under the lid, and meets the cell as it lies.
    expect(share(0.5, -70)).toBeCloseTo(coverTransmittance(70, GLASS).transmittance, 3);
    expect(cellPassage(JAR, 'flat')!.share(0.5, 45) / share(0.5, 45)).toBeCloseTo(0.9498, 4);
  });

  it('gives an even sky through the side of a jar what an integral over the sky gives', () => {
    let sum = 0;
    for (let k = 0; k < 90_000; k++) {
      const elevation = ((k + 0.5) * Math.PI) / 180_000;
      sum += jarSide((elevation * 180) / Math.PI, JAR) * Math.sin(2 * elevation) * (Math.PI / 180_000);
    }
    expect(domeShares(OPEN_DOME, 0, 0, cellPassage(JAR, 'none')).sky).toBeCloseTo(sum, 4);
  });
});

describe('coverTransmittance', () => {
  it('conserves light: passed, reflected and absorbed make 1 at every angle', () => {
    for (const absorption_per_m of [0, 10]) {
      for (let angle_deg = 0; angle_deg <= 90; angle_deg += 1.8) {
        const cover = { ...LID, absorption_per_m };
        const { transmittance, reflectance, absorptance } = coverTransmittance(angle_deg, cover);
        expect(transmittance + reflectance + absorptance).toBeCloseTo(1, 12);
      }
    }
  });
});

const cover = (section: unknown) => {
  const problems: ValueProblem[] = [];
  const made = coverParams(coverSchema.parse(section), (problem) => problems.push(problem));
  return { made, problems: problems.map(({ code, path }) => [code, path.join('.')]) };
};

describe('coverParams', () => {
  it('takes kind and sizes from the parts library', () => {
    expect(cover({ part: 'glass-dome' }).made).toMatchObject({ kind: 'dome' });
    expect(cover({ part: 'clear-resin' }).made).toMatchObject({ kind: 'resin', refractiveIndex: 1.5 });
    const { made } = cover({ part: 'side-lit-jar', lid: 'clear' });
    // 60 mm below the lid in a jar of 80 mm: 60 over 40.
    expect(made).toMatchObject({ kind: 'side-lit', lid: { clear: true } });
    expect(made !== 'none' && made?.lid?.from_deg).toBeCloseTo(56.31, 2);
  });

  it('asks for the sizes of a jar that is lit through its side', () => {
    const values = { refractive_index: 1.5, absorption_per_m: 10, thickness_mm: 3 };
    expect(cover({ kind: 'side-lit', ...values }).problems).toEqual([
      ['SCENARIO_MISSING_KEY', 'inner_width_mm'],
      ['SCENARIO_MISSING_KEY', 'cell_below_lid_mm'],
    ]);
  });
});
