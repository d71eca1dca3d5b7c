import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { BANDS } from '../../data-samples/make/chooseSeed.ts';
import { describeYear } from '../../data-samples/make/describeYear.ts';
import {
  INVENTED_PLACE,
  INVENTED_SEED,
  inventedYear,
  yearFrame,
} from '../../data-samples/make/inventedYear.ts';
import { PUBLISHED_REGIONS } from '../../data-samples/make/publishedMonths.ts';
import { roughness } from './roughness.ts';

const HOUR_MS = 3_600_000;
const frame = yearFrame();
const year = inventedYear(INVENTED_SEED, frame);
const facts = describeYear(year, frame);
const hours = Array.from(year.ghi_W_m2.keys());
const { latitude_deg, longitude_deg, elevation_m } = INVENTED_PLACE;
const observer = new Observer(latitude_deg, longitude_deg, elevation_m);

/** Altitude of the sun's centre without refraction, in degrees, by an independent ephemeris package. */
function altitude(hour: number): number {
  const instant = new Date(year.start_ms + hour * HOUR_MS);
  const { ra, dec } = Equator(Body.Sun, instant, observer, true, true);
  return Horizon(instant, observer, ra, dec).altitude;
}

function dailySums(column: Float64Array): number[] {
  return Array.from({ length: 365 }, (_, day) =>
    column.subarray(day * 24, day * 24 + 24).reduce((sum, value) => sum + value, 0),
  );
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [meanA, meanB] = [mean(a), mean(b)];
  const product = (x: readonly number[], fromX: number, y: readonly number[], fromY: number) =>
    x.reduce((sum, value, i) => sum + (value - fromX) * (y[i]! - fromY), 0);
  return product(a, meanA, b, meanB) / Math.sqrt(product(a, meanA, a, meanA) * product(b, meanB, b, meanB));
}

describe('the invented year', () => {
  it('has 8760 hours, starting at 0 h UTC of 1 January', () => {
    expect(hours).toHaveLength(8760);
    expect(year.air_degC).toHaveLength(8760);
    expect(new Date(year.start_ms).toISOString()).toBe('2025-01-01T00:00:00.000Z');
  });

  it('has months as dull as the published table (SAP 2012, table U3, United Kingdom average at 53.5 N)', () => {
    // A single year's month strays from a mean of many years by a tenth or so; half a degree of latitude takes another
    // 5 percent from December. So 20 percent either way.
    const published_kWh_m2_day = PUBLISHED_REGIONS[0]!.ghi_W_m2.map((ghi) => ghi * 0.024);
    facts.ghi_kWh_m2_day.forEach((got, month) => {
      expect(Math.abs(got / published_kWh_m2_day[month]! - 1)).toBeLessThan(0.2);
    });
    // Both regions, 951 and 1019 kWh/m2, and the place between them.
    expect(facts.year_kWh_m2).toBeGreaterThan(930);
    expect(facts.year_kWh_m2).toBeLessThan(1040);
  });

  it('leans on twelve months each that add up to the years computed from the table when it was seen', () => {
    const days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    const years = PUBLISHED_REGIONS.map(({ ghi_W_m2 }) =>
      ghi_W_m2.reduce((sum, ghi, month) => sum + ghi * days[month]! * 0.024, 0),
    );
    expect(years.map(Math.round)).toEqual([951, 1019]);
  });

  it('keeps to the bands that the seed was chosen by', () => {
    for (const ratio of facts.ofExpected) expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(BANDS.month);
    expect(Math.abs(facts.yearOfExpected - 1)).toBeLessThanOrEqual(BANDS.year);
  });

  it('has a dull spell in the darkest weeks', () => {
    expect(facts.longestDullRun.days).toBeGreaterThanOrEqual(3);
    // 15 November or later, or over by the end of January.
    const { firstDay, mean_kWh_m2_day } = facts.darkestFortnight;
    expect(firstDay >= 318 || firstDay + 14 <= 31).toBe(true);
    expect(mean_kWh_m2_day).toBeLessThan(0.45);
  });

  it('is dark whenever an independent ephemeris has the sun down', () => {
    // Refraction lifts the sun by 0.5 degrees at the horizon; sunrise may fall anywhere in the hour.
    const dark = hours.filter((hour) => [0, 0.5, 1].every((part) => altitude(hour + part) < -0.6));
    expect(dark.length).toBeGreaterThan(3800);
    for (const hour of dark) expect(year.ghi_W_m2[hour]).toBe(0);
  });

  it('never leaves the limits of extremely rare light (Long and Dutton, BSRN recommended tests V2.0, 2002)', () => {
    let bright = 0;
    for (const hour of hours) {
      const up = Math.max(Math.sin((altitude(hour + 0.5) * Math.PI) / 180), 0);
      // 1361 W/m2 over the squared distance, by the simple cosine: 0.3 percent.
      const distance = 1 + 0.033 * Math.cos((2 * Math.PI * (hour / 24)) / 365);
      expect(year.ghi_W_m2[hour]!).toBeGreaterThanOrEqual(0);
      expect(year.ghi_W_m2[hour]!).toBeLessThanOrEqual(1.2 * 1361 * distance * up ** 1.2 + 50);
      if (year.ghi_W_m2[hour]! > 0.5 * 1361 * distance * up && up > 0.1) bright++;
    }
    expect(bright).toBeGreaterThan(800);
  });

  it('never exceeds the cleanest sky of its hour', () => {
    // 0.05 W/m2: values are rounded to a tenth.
    for (const hour of hours)
      expect(year.ghi_W_m2[hour]!).toBeLessThanOrEqual(frame.sun.bound_W_m2[hour]! + 0.051);
  });

  it('has hours as rough as published: successive ones correlate by 0.54, spread 0.14 (Graham and Hollands 1990)', () => {
    const measured = roughness(year, frame.sun);
    expect(Math.abs(measured.persistence - 0.54)).toBeLessThan(0.14);
    // Size over that of Aguiar and Collares-Pereira 1992: bounds and rounding of a single year, a tenth.
    expect(Math.abs(measured.size - 1)).toBeLessThan(0.1);
  });

  it('has the air of a lowland place near the sea', () => {
    expect(Math.abs(facts.air_degC[0]! - 1)).toBeLessThan(BANDS.temperature_degC);
    expect(Math.abs(facts.air_degC[6]! - 17)).toBeLessThan(BANDS.temperature_degC);
    for (const hour of hours) {
      expect(year.air_degC[hour]!).toBeGreaterThan(-20);
      expect(year.air_degC[hour]!).toBeLessThan(36);
      if (hour > 0) expect(Math.abs(year.air_degC[hour]! - year.air_degC[hour - 1]!)).toBeLessThan(4);
    }
  });

  it('is milder on dull winter days and warmer on bright summer days', () => {
    const outside = frame.sun.dailyExtraterrestrial_Wh_m2;
    const clearness = dailySums(year.ghi_W_m2).map((sum, day) => sum / outside[day]!);
    const air = dailySums(year.air_degC);
    const of = (values: number[], months: number[]) =>
      values.filter((_, day) => months.includes(frame.monthOfDay[day]!));
    expect(correlation(of(clearness, [11, 0, 1]), of(air, [11, 0, 1]))).toBeLessThan(-0.1);
    expect(correlation(of(clearness, [5, 6, 7]), of(air, [5, 6, 7]))).toBeGreaterThan(0.1);
  });

  it('is another year with another seed', () => {
    expect(inventedYear(INVENTED_SEED + 1, frame).ghi_W_m2).not.toEqual(year.ghi_W_m2);
  });
});
