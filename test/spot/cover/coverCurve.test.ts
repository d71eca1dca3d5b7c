import { describe, expect, it } from 'vitest';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { coverCurve, jarSide } from '../../../sim/spot/cover/coverCurve.ts';
import { coverParams } from '../../../sim/spot/cover/coverParams.ts';
import { coverTransmittance, resinTransmittance } from '../../../sim/spot/cover/coverTransmittance.ts';
import { coverSchema } from '../../../sim/spot/cover/schema.ts';
import { domeShares } from '../../../sim/spot/shade/domeShares.ts';
import { OPEN_DOME } from '../../../sim/spot/shade/SkyDome.ts';

const LID = { kind: 'flat' as const, refractiveIndex: 1.526, absorption_per_m: 10, thickness_m: 0.0025 };

describe('coverCurve', () => {
  it('stays within 0.0005 of the equations at every angle', () => {
    const curve = coverCurve(LID, 10);
    for (let angle_deg = 0; angle_deg <= 90; angle_deg += 0.13) {
      const exact = coverTransmittance(angle_deg, LID).transmittance;
      expect(
        Math.abs(curve.beam(Math.cos((angle_deg * Math.PI) / 180), 90 - angle_deg) - exact),
      ).toBeLessThan(5e-4);
    }
  });

  it('passes everything where there is no cover', () => {
    const { beam, sky, ground } = coverCurve('none', 30);
    expect([beam(0.01, 1), beam(1, 60), sky, ground]).toEqual([1, 1, 1, 1]);
  });

  it('conserves light: passed, reflected and absorbed make 1 at every angle', () => {
    for (let angle_deg = 0; angle_deg < 90; angle_deg += 1.7) {
      const { transmittance, reflectance, absorptance } = coverTransmittance(angle_deg, LID);
      expect(transmittance + reflectance + absorptance).toBeCloseTo(1, 12);
    }
  });

  it('gives the sky on a flat lid what an exact integral over the sky gives, within 2 percent', () => {
    let sum = 0;
    for (let k = 0; k < 9000; k++) {
      const angle = ((k + 0.5) * Math.PI) / 18000;
      const passed = coverTransmittance((angle * 180) / Math.PI, LID).transmittance;
      sum += passed * Math.sin(2 * angle) * (Math.PI / 18000);
    }
    // The published angle is a fit over many covers.
    expect(Math.abs(coverCurve(LID, 0).sky / sum - 1)).toBeLessThan(0.02);
  });
});

const GLASS = { refractiveIndex: 1.526, absorption_per_m: 10, thickness_m: 0.0025 };
const cover = (section: unknown) => {
  const problems: ValueProblem[] = [];
  const made = coverParams(coverSchema.parse(section), (problem) => problems.push(problem));
  return { made, problems: problems.map(({ code, path }) => [code, path.join('.')]) };
};

describe('covers of each kind', () => {
  it('passes a dome straight on from every side', () => {
    const straight = coverTransmittance(0, GLASS).transmittance;
    const { beam, sky, ground } = coverCurve({ ...GLASS, kind: 'dome' }, 20);
    expect([beam(0.05, 3), beam(1, 50), sky, ground]).toEqual([straight, straight, straight, straight]);
  });

  it('loses less in resin than under a lid of the same glass: one surface instead of two', () => {
    const resin = coverCurve({ ...GLASS, kind: 'resin' }, 0);
    const lid = coverCurve({ ...GLASS, kind: 'flat' }, 0);
    for (const cosine of [0.1, 0.4, 0.7, 1])
      expect(resin.beam(cosine, 5)).toBeGreaterThan(lid.beam(cosine, 5));
    expect(resin.sky).toBeGreaterThan(lid.sky);
    expect(resin.beam(0.5, 30)).toBeCloseTo(resinTransmittance(60, GLASS), 3);
  });

  it('lights a jar through its side, the lower the sun the straighter, and nothing through an opaque lid', () => {
    const jar = { ...GLASS, kind: 'side-lit' as const, lid: { from_deg: 56, clear: false } };
    const { beam } = coverCurve(jar, 0);
    expect(beam(0.02, 1)).toBeCloseTo(coverTransmittance(1, GLASS).transmittance, 3);
    expect(beam(0.7, 45)).toBeCloseTo(coverTransmittance(45, GLASS).transmittance, 3);
    expect(beam(0.9, 57)).toBe(0);
    expect(coverCurve({ ...jar, lid: { from_deg: 56, clear: true } }, 0).beam(0.9, 57)).toBeCloseTo(
      coverTransmittance(33, GLASS).transmittance,
      3,
    );
  });

  it('gives an even sky through the side of a jar what an integral over the sky gives', () => {
    const jar = { ...GLASS, kind: 'side-lit' as const, lid: { from_deg: 56, clear: false } };
    let sum = 0;
    for (let k = 0; k < 9000; k++) {
      const elevation = ((k + 0.5) * Math.PI) / 18000;
      sum += jarSide((elevation * 180) / Math.PI, jar) * Math.sin(2 * elevation) * (Math.PI / 18000);
    }
    const curve = coverCurve(jar, 0);
    // Tenths of a degree at the lid's edge.
    expect(domeShares(OPEN_DOME, 0, 0, curve.light).sky * curve.sky).toBeCloseTo(sum, 3);
  });

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
