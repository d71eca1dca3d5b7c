import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CellPassage, cellPassage } from '../../../sim/spot/cover/cellPassage.ts';
import { groundShare } from '../../../sim/spot/planeFactors.ts';
import { incidenceCosine, normalOf } from '../../../sim/spot/shade/beamOnPlane.ts';
import { domeShares } from '../../../sim/spot/shade/domeShares.ts';
import { OPEN_DOME, type SkyDome } from '../../../sim/spot/shade/SkyDome.ts';
import { directionTo } from '../../../sim/sun/SunTrack.ts';
import { blockDome, horizonDome } from '../domes.ts';

const BEARINGS = Float64Array.from({ length: 12 }, (_, i) => i * 30);
const elevations = fc
  .array(fc.double({ min: 0, max: 80, noNaN: true }), { minLength: 12, maxLength: 12 })
  .map((list) => Float64Array.from(list));
const tilt = fc.double({ min: 0, max: 90, noNaN: true });
const bearing = fc.double({ min: 0, max: 360, noNaN: true });

describe('domeShares', () => {
  it('gives sky and obstacles together what an open horizon gives to the sky', () => {
    fc.assert(
      fc.property(elevations, tilt, bearing, (elevation_deg, tilt_deg, bearing_deg) => {
        const dome = horizonDome({ bearing_deg: BEARINGS, elevation_deg });
        const { sky, screens } = domeShares(dome, tilt_deg, bearing_deg);
        const obstacles = screens.reduce((sum, screen) => sum + screen.view, 0);
        // Limited by the half-degree bearings at the plane's own edge.
        expect(sky + obstacles).toBeCloseTo((1 + Math.cos((tilt_deg * Math.PI) / 180)) / 2, 5);
      }),
      { numRuns: 40 },
    );
  });

  it('never gives more sky for a higher horizon', () => {
    fc.assert(
      fc.property(elevations, tilt, fc.nat(11), (elevation_deg, tilt_deg, raised) => {
        const higher = elevation_deg.map((e, i) => (i === raised ? e + 8 : e));
        const before = domeShares(horizonDome({ bearing_deg: BEARINGS, elevation_deg }), tilt_deg, 180).sky;
        const after = domeShares(
          horizonDome({ bearing_deg: BEARINGS, elevation_deg: higher }),
          tilt_deg,
          180,
        ).sky;
        // Edges are found to 0.001 degrees.
        expect(after).toBeLessThanOrEqual(before + 1e-5);
      }),
      { numRuns: 40 },
    );
  });

  it('counts half of what a screen of half transmittance hides', () => {
    const screen = (pass: number) =>
      blockDome((bearing_deg) => bearing_deg > 90 && bearing_deg < 200, 40, pass);
    const [open, half, shut] = [1, 0.5, 0].map((pass) => domeShares(screen(pass), 20, 180).sky);
    expect(half).toBeCloseTo((open! + shut!) / 2, 6);
  });

  it('turns with the plane: the same dome and plane turned together see the same', () => {
    const dome = (turn_deg: number) =>
      blockDome((bearing_deg) => (bearing_deg - turn_deg + 360) % 360 < 120, 33.3);
    const still = domeShares(dome(0), 35, 50);
    const turned = domeShares(dome(100), 35, 150);
    expect(turned.sky).toBeCloseTo(still.sky, 9);
    expect(turned.screens[0]!.sun[160]!).toBeCloseTo(still.screens[0]!.sun[60]!, 9);
  });
});

const GLASS = { refractiveIndex: 1.526, absorption_per_m: 10, thickness_m: 0.0025 };
const PASSAGES: Record<string, CellPassage> = {
  'a lid over a flat front': cellPassage({ kind: 'flat', ...GLASS }, 'flat')!,
  'a bare flat front': cellPassage('none', 'flat')!,
  'the side of a jar': cellPassage(
    { kind: 'side-lit', ...GLASS, lid: { from_deg: 56, clear: false } },
    'flat',
  )!,
};

/** The sky's light on a plane, and of all directions below the horizontal, summed over small patches of the sphere. */
function patches(dome: SkyDome, tilt_deg: number, bearing_deg: number, { share }: CellPassage) {
  const normal = normalOf({ tilt_deg, bearing_deg });
  const step_deg = 0.5;
  const sums = { sky: 0, hidden: 0, ground: 0 };
  for (let elevation = -90 + step_deg / 2; elevation < 90; elevation += step_deg) {
    const patch = (Math.cos((elevation * Math.PI) / 180) * (step_deg * Math.PI) ** 2) / 180 ** 2 / Math.PI;
    for (let bearing = step_deg / 2; bearing < 360; bearing += step_deg) {
      const { up, north, east } = directionTo(elevation, bearing);
      const cosine = incidenceCosine(up, north, east, normal);
      if (cosine <= 0) continue;
      const light = patch * cosine * share(cosine, elevation);
      const passes = elevation > 0 ? dome.transmittance(bearing, elevation) : 0;
      sums.sky += light * passes;
      sums[elevation > 0 ? 'hidden' : 'ground'] += light * (1 - passes);
    }
  }
  return sums;
}

describe('domeShares and groundShare through cover and front', () => {
  const block = blockDome((bearing_deg) => bearing_deg > 140 && bearing_deg < 250, 41, 0.3);

  it.each(Object.keys(PASSAGES))('integrate %s over what is open, what hides it, and the ground', (name) => {
    const passage = PASSAGES[name]!;
    for (const [tilt_deg, bearing_deg] of [
      [0, 0],
      [10, 0],
      [35, 200],
      [90, 160],
    ] as const) {
      const { sky, screens } = domeShares(block, tilt_deg, bearing_deg, passage);
      const sums = patches(block, tilt_deg, bearing_deg, passage);
      // Half-degree patches.
      expect(Math.abs(sky - sums.sky)).toBeLessThan(1e-3);
      expect(Math.abs(screens[0]!.view - sums.hidden)).toBeLessThan(1e-3);
      expect(Math.abs(groundShare({ tilt_deg, bearing_deg, passage }) - sums.ground)).toBeLessThan(1e-3);
    }
  });

  it('give sky and ground together what a flat cell takes of the sky, however it is tilted', () => {
    const passage = PASSAGES['a lid over a flat front']!;
    const flat = domeShares(OPEN_DOME, 0, 0, passage).sky;
    fc.assert(
      fc.property(tilt, bearing, (tilt_deg, bearing_deg) => {
        const { sky } = domeShares(OPEN_DOME, tilt_deg, bearing_deg, passage);
        expect(sky + groundShare({ tilt_deg, bearing_deg, passage })).toBeCloseTo(flat, 4);
      }),
      { numRuns: 40 },
    );
  });

  it('weigh the band at the horizon by its own slant', () => {
    const passage = PASSAGES['a bare flat front']!;
    const upright = domeShares(OPEN_DOME, 90, 180, passage).band;
    const tilted = domeShares(OPEN_DOME, 20, 180, passage).band;
    expect(upright).toBeGreaterThan(0.93);
    expect(tilted).toBeLessThan(0.9);
    expect(domeShares(OPEN_DOME, 20, 180).band).toBe(1);
  });
});
