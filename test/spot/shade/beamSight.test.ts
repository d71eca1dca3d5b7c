import { describe, expect, it } from 'vitest';
import { OPEN_DOME } from '../../../sim/spot/shade/SkyDome.ts';
import { solarPosition } from '../../../sim/sun/solarPosition.ts';
import { sunColumns } from '../../../sim/sun/sunColumns.ts';
import { beamUnder } from '../beamUnder.ts';
import { blockDome } from '../domes.ts';
import { GARDEN } from '../inventedHours.ts';

const START_MS = Date.UTC(2023, 2, 10);
const HOURS = 240;
const sun = sunColumns(START_MS, HOURS, GARDEN);
const FLAT = { tilt_deg: 0, bearing_deg: 0, passage: undefined };

/** Two houses, a gap of 7 degrees between them towards the south-south-east, 25 degrees high. */
const inGap = (bearing_deg: number) => bearing_deg > 151.3 && bearing_deg < 158.4;
const houses = blockDome((bearing_deg) => bearing_deg > 80 && bearing_deg < 230 && !inGap(bearing_deg), 45);

describe('beamSight', () => {
  it('cuts the sun in a gap between two houses at the right minute', () => {
    const { seen } = beamUnder(sun, houses, FLAT);
    let gaps = 0;
    for (let hour = 0; hour < HOURS; hour++) {
      let seconds = 0;
      for (let second = 2.5; second < 3600; second += 5) {
        const ms = START_MS + hour * 3_600_000 + second * 1000;
        const at = solarPosition(ms, GARDEN.latitude_deg, GARDEN.longitude_deg);
        if (at.altitude_deg > 0) seconds += 5 * houses.transmittance(at.azimuth_deg, at.altitude_deg);
      }
      const got_s = seen[hour]! * sun.upShare[hour]! * 3600;
      if (seconds > 0 && seconds < 3600) gaps++;
      // Two edges, each to 3 seconds, and the 5 seconds of the reference.
      expect(Math.abs(got_s - seconds)).toBeLessThan(15);
    }
    expect(gaps).toBeGreaterThan(20);
  });

  it('sees the sun through a slit that it passes in two minutes', () => {
    // Half a degree of bearing in a wall all around.
    const slit = blockDome((bearing_deg) => bearing_deg < 170.2 || bearing_deg > 170.7, 80);
    const { seen } = beamUnder(sun, slit, FLAT);
    let seen_s = 0;
    for (let hour = 0; hour < 24; hour++) {
      seen_s += seen[hour]! * sun.upShare[hour]! * 3600;
    }
    let reference_s = 0;
    for (let second = 0; second < 86_400; second += 2) {
      const { azimuth_deg } = solarPosition(
        START_MS + second * 1000,
        GARDEN.latitude_deg,
        GARDEN.longitude_deg,
      );
      if (azimuth_deg >= 170.2 && azimuth_deg <= 170.7) reference_s += 2;
    }
    expect(reference_s).toBeGreaterThan(60);
    // A tenth of a degree of bearing at either edge.
    expect(Math.abs(seen_s - reference_s)).toBeLessThan(30);
  });

  it('gives the flat under an open sky the mean cosine of the hour', () => {
    const { onPlane, onGround } = beamUnder(sun, OPEN_DOME, FLAT);
    for (let hour = 0; hour < HOURS; hour++) {
      const mean = sun.upShare[hour]! * sun.upCosZenith[hour]!;
      // Trapezia of 3 and of 5 minutes.
      expect(Math.abs(onPlane[hour]! - mean)).toBeLessThan(5e-5);
      expect(Math.abs(onGround[hour]! - mean)).toBeLessThan(5e-5);
    }
  });

  it('leaks nothing while the sun stands behind the horizon or the cell', () => {
    const shut = blockDome(() => true, 60);
    for (const column of Object.values(beamUnder(sun, shut, FLAT))) {
      expect(column.every((value) => value === 0)).toBe(true);
    }
    const north = beamUnder(sun, OPEN_DOME, { tilt_deg: 90, bearing_deg: 0, passage: undefined });
    for (let hour = 0; hour < HOURS; hour++) {
      const azimuth = sun.azimuth_deg[hour]!;
      if (azimuth > 110 && azimuth < 250) expect(north.onPlane[hour]).toBe(0);
    }
  });
});
