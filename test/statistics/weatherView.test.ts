import { describe, expect, it } from 'vitest';
import { monthlyTable } from '../../sim/statistics/weatherView.ts';
import { sunLight } from '../../sim/weather/quality/SunLight.ts';
import { GARDEN, gardenYear, hourOf2021, YEAR_2021_MS } from '../weather/quality/madeRecord.ts';

const LIGHT = sunLight(YEAR_2021_MS, 8760, GARDEN);

describe('monthlyTable', () => {
  // Daily irradiation outside the air at 50 degrees north on the mean day of each month, MJ/m2, computed apart by the
  // textbook's closed form and mean days (Duffie and Beckman, Solar Engineering of Thermal Processes, section 1.10, from
  // memory), constant 1367 W/m2; no table of these numbers was seen.
  // 2 percent: the constant (0.4) and refraction, which lengthens winter days (1.5). The solstices only, for the
  // textbook's declination is half a degree off in between.
  it("gives the irradiation outside the air of the textbook's closed form", () => {
    const site = { ...GARDEN, latitude_deg: 50 };
    const { months } = monthlyTable(gardenYear(1), sunLight(YEAR_2021_MS, 8760, site));
    for (const [month, computed] of [
      [5, 41.58],
      [11, 7.68],
    ] as const) {
      expect(Math.abs((months[month]!.outside_kWh_m2_day * 3.6) / computed - 1)).toBeLessThan(0.02);
    }
  });

  it('adds months up to the year', () => {
    const record = gardenYear(2);
    const { months, years } = monthlyTable(record, LIGHT);
    expect(months.map(({ month }) => month.slice(5)).join(' ')).toBe('01 02 03 04 05 06 07 08 09 10 11 12');
    const sum = record.ghi_W_m2.reduce((total, value) => total + value, 0) / 1000;
    expect(years).toHaveLength(1);
    expect(years[0]!.ghi_kWh_m2).toBeCloseTo(sum, 6);
    expect(years[0]).toMatchObject({ year: 2021, coverage: 1 });
  });

  it('neither darkens nor brightens a month with a gap, and shows none for an absent one', () => {
    const record = gardenYear(3);
    const whole = monthlyTable(record, LIGHT).months;
    for (let i = 0; i < 8760; i++) record.ghi_W_m2[i] = 0.4 * LIGHT.outside_W_m2[i]!;
    record.ghi_W_m2.fill(Number.NaN, hourOf2021(6, 1, 0), hourOf2021(6, 16, 0));
    record.ghi_W_m2.fill(Number.NaN, hourOf2021(2, 1, 0), hourOf2021(3, 1, 0));
    const { months, years } = monthlyTable(record, LIGHT, { filled: new Uint8Array(8760).fill(1, 0, 5) });
    expect(months[5]!.ghi_kWh_m2_day).toBeCloseTo(0.4 * whole[5]!.outside_kWh_m2_day, 9);
    expect(months[5]).toMatchObject({ coverage: 0.5 });
    expect(months[5]!.clearness).toBeCloseTo(0.4, 9);
    expect(months[1]).toMatchObject({ ghi_kWh_m2_day: Number.NaN, coverage: 0 });
    expect(years[0]).toMatchObject({ ghi_kWh_m2: Number.NaN, filled_h: 5 });
    expect(months[0]!.filled_h).toBe(5);
  });
});
