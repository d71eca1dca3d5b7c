import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { domeShares } from '../../../sim/spot/shade/domeShares.ts';
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
