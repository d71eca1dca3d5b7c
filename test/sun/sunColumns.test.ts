import { describe, expect, it } from 'vitest';
import { solarPosition } from '../../sim/sun/solarPosition.ts';
import { sunColumns, sunWithinHour } from '../../sim/sun/sunColumns.ts';

const YEAR_MS = Date.UTC(2023, 0, 1);
const LATITUDES = [-90, -54, 0, 54, 66.5, 70, 90];

describe('sunColumns', () => {
  it.each(LATITUDES)('holds only finite numbers over a year at latitude %f', (latitude_deg) => {
    const sun = sunColumns(YEAR_MS, 8760, { latitude_deg, longitude_deg: 10 });
    const columns = Object.values(sun).filter((column) => column instanceof Float64Array);
    expect(columns).toHaveLength(9);
    for (const column of columns) expect(column.every(Number.isFinite)).toBe(true);
  });

  it.each(LATITUDES)(
    'agrees with the position at any moment inside the hour at latitude %f',
    (latitude_deg) => {
      const sun = sunColumns(YEAR_MS, 8760, { latitude_deg, longitude_deg: 10 });
      let worst = 0;
      for (let hour = 0; hour < 8760; hour += 7) {
        const exact = solarPosition(YEAR_MS + (hour + 0.25) * 3_600_000, latitude_deg, 10);
        worst = Math.max(worst, Math.abs(sunWithinHour(sun, hour, 0.25).altitude_deg - exact.altitude_deg));
      }
      // Declination and hour angle are linear within the hour to this.
      expect(worst).toBeLessThan(1e-4);
    },
  );

  it('averages share and cosine over the sun-up part as a fine sum over seconds does', () => {
    for (let hour = 8; hour < 8760; hour += 401) {
      const sum = { up: 0, cosine: 0 };
      const steps = 1200;
      for (let k = 0; k < steps; k++) {
        const ms = YEAR_MS + (hour + (k + 0.5) / steps) * 3_600_000;
        const { altitude_deg } = solarPosition(ms, 54, 10);
        if (altitude_deg <= 0) continue;
        sum.up += 1 / steps;
        sum.cosine += Math.sin((altitude_deg * Math.PI) / 180) / steps;
      }
      const got = sunColumns(YEAR_MS + hour * 3_600_000, 1, { latitude_deg: 54, longitude_deg: 10 });
      // The fine sum itself is cut to 3 seconds.
      expect(Math.abs(got.upShare[0]! - sum.up)).toBeLessThan(0.002);
      expect(Math.abs(got.upShare[0]! * got.upCosZenith[0]! - sum.cosine)).toBeLessThan(1e-4);
    }
  });

  it('never has the sun up in the polar night nor down in the midnight sun', () => {
    const december = sunColumns(Date.UTC(2023, 11, 15), 240, { latitude_deg: 72, longitude_deg: 10 });
    expect(Math.max(...december.upShare)).toBe(0);
    const june = sunColumns(Date.UTC(2023, 5, 15), 240, { latitude_deg: 72, longitude_deg: 10 });
    expect(Math.min(...june.upShare)).toBeCloseTo(1, 12);
  });
});
