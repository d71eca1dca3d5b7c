import { Body, Equator, Horizon, MakeTime, Observer } from 'astronomy-engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apparentAltitude, geometricAltitude, solarPosition } from '../../sim/sun/solarPosition.ts';

const PLACES = [
  [54, 10],
  [66.5, 25],
  [78, 15],
  [0, -100],
  [-33.9, 151.2],
  [-54.8, -68.3],
] as const;
/** Stated accuracy of the short series, and what the project must hold. */
const TOLERANCE_DEG = 0.02;

describe('solarPosition', () => {
  it.each(PLACES)(
    'stays within 0.02 degrees of an independent ephemeris over a year at %f N %f E',
    (lat, lon) => {
      const observer = new Observer(lat, lon, 0);
      let worstAltitude = 0;
      let worstAcross = 0;
      for (let hour = 0; hour < 8760; hour += 1) {
        const ms = Date.UTC(2024, 0, 1) + hour * 3_600_000 + 1_234_567;
        const time = MakeTime(new Date(ms));
        const place = Equator(Body.Sun, time, observer, true, true);
        const reference = Horizon(time, observer, place.ra, place.dec);
        const got = solarPosition(ms, lat, lon);
        worstAltitude = Math.max(
          worstAltitude,
          Math.abs(geometricAltitude(got.altitude_deg) - reference.altitude),
        );
        const turn = ((got.azimuth_deg - reference.azimuth + 540) % 360) - 180;
        worstAcross = Math.max(worstAcross, Math.abs(turn) * Math.cos((reference.altitude * Math.PI) / 180));
      }
      expect(worstAltitude).toBeLessThan(TOLERANCE_DEG);
      expect(worstAcross).toBeLessThan(TOLERANCE_DEG);
    },
  );

  it('adds refraction within 0.02 degrees of an independent ephemeris above 1 degree', () => {
    const observer = new Observer(54, 10, 0);
    let worst = 0;
    let seen = 0;
    for (let hour = 0; hour < 8760; hour++) {
      const ms = Date.UTC(2024, 0, 1) + hour * 3_600_000;
      const time = MakeTime(new Date(ms));
      const place = Equator(Body.Sun, time, observer, true, true);
      const reference = Horizon(time, observer, place.ra, place.dec, 'normal').altitude;
      if (reference < 1) continue;
      seen++;
      worst = Math.max(worst, Math.abs(solarPosition(ms, 54, 10).altitude_deg - reference));
    }
    expect(seen).toBeGreaterThan(4000);
    expect(worst).toBeLessThan(TOLERANCE_DEG);
  });
});

it('geometricAltitude(apparentAltitude(h)) is h, above and below the horizon', () => {
  fc.assert(
    fc.property(fc.double({ min: -90, max: 90, noNaN: true }), (h) => {
      // Limited by rounding of the iteration.
      expect(geometricAltitude(apparentAltitude(h))).toBeCloseTo(h, 8);
    }),
  );
});
