import { describe, expect, it } from 'vitest';
import { bendt, hollandsHuget } from '../../sim/climate/ClearnessDistribution.ts';
import { winterFrame } from '../../sim/climate/madeWinters.ts';
import { meansClimate, type SpreadName, spreadsOf } from '../../sim/climate/meansClimate.ts';
import { meansDays, meansWinter } from '../../sim/climate/meansWinter.ts';
import { climateSchema } from '../../sim/climate/schema.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../../sim/weather/WeatherRecord.ts';
import { THAMES, THAMES_CLIMATE } from './monthsOnly.ts';

const WINTERS = 200;
const DAYS = 365;
const frame = winterFrame(THAMES);

/** What many winters come to, month by month. */
function manyWinters(spread: SpreadName, seed: number) {
  const climate = meansClimate(THAMES_CLIMATE, frame, spread);
  const { sky, monthOfDay, days } = climate.months;
  const zeros = () => new Array<number>(12).fill(0);
  const sums = { light: zeros(), air: zeros(), range: zeros(), snow: zeros() };
  const clearness: number[][] = Array.from({ length: 12 }, () => []);
  let overBound = 0;
  for (let i = 0; i < WINTERS; i++) {
    const winter = meansWinter(climate, frame, seed, i);
    winter.ghi_W_m2.forEach((ghi, h) => {
      if (ghi > sky.bound_W_m2[h]! + 1e-6 || ghi < 0) overBound++;
    });
    for (let d = 0; d < DAYS; d++) {
      const month = monthOfDay[d]!;
      const of = (column: Float64Array) => column.subarray(d * 24, d * 24 + 24);
      const light = of(winter.ghi_W_m2).reduce((sum, ghi) => sum + ghi, 0);
      const air = of(winter.air_degC);
      sums.light[month]! += light / 1000;
      sums.air[month]! += air.reduce((sum, t) => sum + t, 0) / 24;
      sums.range[month]! += Math.max(...air) - Math.min(...air);
      sums.snow[month]! += winter.snowDepth_m![d * 24 + 12]! > 0 ? 1 : 0;
      clearness[month]!.push(light / sky.dailyExtraterrestrial_Wh_m2[d]!);
    }
  }
  const perDay = (values: number[]) => values.map((sum, month) => sum / days[month]! / WINTERS);
  return {
    climate,
    overBound,
    clearness,
    light_kWh_m2: perDay(sums.light),
    air_degC: perDay(sums.air),
    range_K: perDay(sums.range),
    snow_days: sums.snow.map((sum) => sum / WINTERS),
  };
}

/** Greatest distance of the shares of some values from those of a distribution. */
function kolmogorovSmirnov(values: readonly number[], share: (value: number) => number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return Math.max(
    ...sorted.map((value, i) =>
      Math.max(Math.abs(share(value) - i / sorted.length), Math.abs(share(value) - (i + 1) / sorted.length)),
    ),
  );
}

describe.each([
  ['bendt', bendt],
  ['hollands-huget', hollandsHuget],
] as const)('200 winters from the months alone, by %s', (spread, published) => {
  const made = manyWinters(spread, 1);

  it('have the months of the table in their mean, and no month is forced to it', () => {
    THAMES_CLIMATE.irradiation_kWh_m2_day!.forEach((stated, month) => {
      expect(Math.abs(made.light_kWh_m2[month]! / stated! - 1)).toBeLessThan(0.02);
    });
    const one = meansDays(made.climate, 1, 0).clearness;
    const december = Array.from(one).filter((_, d) => made.climate.months.monthOfDay[d] === 11);
    const mean = december.reduce((sum, k) => sum + k, 0) / december.length;
    const stated = THAMES_CLIMATE.irradiation_kWh_m2_day![11]! / made.climate.months.outside_kWh_m2_day[11]!;
    expect(Math.abs(mean / stated - 1)).toBeGreaterThan(0.01);
  });

  it('have days spread as published, within KS 0.05', () => {
    made.clearness.forEach((days, month) => {
      const mean =
        THAMES_CLIMATE.irradiation_kWh_m2_day![month]! / made.climate.months.outside_kWh_m2_day[month]!;
      expect(kolmogorovSmirnov(days, published(mean).shareDuller)).toBeLessThan(0.05);
    });
  });

  it('have no hour above the clearest sky', () => {
    expect(made.overBound).toBe(0);
    made.climate.months.clearest.forEach((clearest, month) => {
      expect(Math.max(...made.clearness[month]!)).toBeLessThan(1.06 * clearest);
      expect(Math.max(...made.clearness[month]!)).toBeGreaterThan(0.85 * clearest);
    });
  });

  it('have the air, its range and the snow that were stated', () => {
    THAMES_CLIMATE.air_degC!.forEach((stated, month) => {
      // 200 months that stray by 3 degrees from day to day and hold together for days.
      expect(Math.abs(made.air_degC[month]! - stated)).toBeLessThan(0.3);
      expect(Math.abs(made.range_K[month]! / THAMES_CLIMATE.air_range_K![month]! - 1)).toBeLessThan(0.1);
      const snow = THAMES_CLIMATE.snow_days![month]!;
      expect(Math.abs(made.snow_days[month]! - snow)).toBeLessThan(0.15 * snow + 0.25);
      if (snow === 0) expect(made.snow_days[month]).toBe(0);
    });
  });
});

describe('a winter from the months alone', () => {
  const climate = meansClimate(THAMES_CLIMATE, frame);
  const winter = meansWinter(climate, frame, 1, 3);

  it('is 8760 whole hours marked as made, the same for the same seed and number', () => {
    expect(winter.count).toBe(8760);
    for (const column of [winter.ghi_W_m2, winter.air_degC, winter.snowDepth_m!]) {
      expect(column).toHaveLength(8760);
      expect(column.every(Number.isFinite)).toBe(true);
    }
    expect(new Set(winter.mark)).toEqual(new Set([WEATHER_MARKS.indexOf('synthetic')]));
    expect(meansWinter(climate, frame, 1, 3).ghi_W_m2).toEqual(winter.ghi_W_m2);
    expect(meansWinter(climate, frame, 1, 4).ghi_W_m2).not.toEqual(winter.ghi_W_m2);
    expect(meansWinter(climate, frame, 2, 3).ghi_W_m2).not.toEqual(winter.ghi_W_m2);
    expect(winter.origin.options.light).toContain('may be a quarter too kind');
  });

  it('has no seam in the air, between days or between months', () => {
    for (let h = 1; h < winter.count; h++)
      expect(Math.abs(winter.air_degC[h]! - winter.air_degC[h - 1]!)).toBeLessThan(4);
  });

  it('has days that follow each other as measured at 57.7 N: .235 .123 .097 .038 (own evaluation)', () => {
    const measured = [0.235, 0.123, 0.097, 0.038];
    const products = measured.map(() => 0);
    let squares = 0;
    for (let i = 0; i < WINTERS; i++) {
      const { brightness } = meansDays(climate, 1, i);
      for (let d = 0; d < DAYS - 4; d++) {
        squares += brightness[d]! ** 2;
        products.forEach((_, k) => {
          products[k]! += brightness[d]! * brightness[d + k + 1]!;
        });
      }
    }
    measured.forEach((r, k) => {
      expect(Math.abs(products[k]! / squares - r)).toBeLessThan(0.04);
    });
    // An autoregression of first order with the first of them would have forgotten by the second day.
    expect(products[1]! / squares).toBeGreaterThan(0.235 ** 2 + 0.03);
  });

  it('has hours that correlate by 0.54, spread 0.14 (Graham and Hollands 1990)', () => {
    const { sky } = climate.months;
    let product = 0;
    let square = 0;
    for (let i = 0; i < 10; i++) {
      const { ghi_W_m2 }: WeatherRecord = meansWinter(climate, frame, 1, i);
      const { clearness } = meansDays(climate, 1, i);
      const stray = (h: number) =>
        ghi_W_m2[h]! / sky.extraterrestrial_W_m2[h]! - clearness[Math.floor(h / 24)]! * sky.shape[h]!;
      for (let h = 1; h < ghi_W_m2.length; h++) {
        if (sky.sineAltitude[h]! <= 0.1 || sky.sineAltitude[h - 1]! <= 0.1) continue;
        product += stray(h) * stray(h - 1);
        square += (stray(h) ** 2 + stray(h - 1) ** 2) / 2;
      }
    }
    expect(Math.abs(product / square - 0.54)).toBeLessThan(0.14);
  });

  it('is milder on dull winter days', () => {
    let product = 0;
    for (let i = 0; i < 20; i++) {
      const { brightness } = meansDays(climate, 1, i);
      const { air_degC } = meansWinter(climate, frame, 1, i);
      brightness.forEach((normal, d) => {
        if (climate.months.monthOfDay[d] === 0) product += normal * (air_degC[d * 24 + 12]! - 4);
      });
    }
    expect(product / (20 * 31)).toBeLessThan(-0.4);
  });
});

describe('a climate', () => {
  it('that states no distribution leaves both, that states one leaves it', () => {
    expect(spreadsOf(THAMES_CLIMATE)).toEqual(['bendt', 'hollands-huget']);
    expect(spreadsOf({ ...THAMES_CLIMATE, distribution: 'hollands-huget' })).toEqual(['hollands-huget']);
  });

  it('given by shares of days has them again', () => {
    const days = [0, 0.1, 0.5, 0.9, 1];
    const row = [0.04, 0.1, 0.25, 0.5, 0.65];
    const section = climateSchema.parse({
      clearness_shares: { days, months: Array.from({ length: 12 }, () => row) },
      air_degC: THAMES_CLIMATE.air_degC,
    });
    expect(spreadsOf(section)).toEqual(['learned']);
    const climate = meansClimate(section, frame);
    const all = Array.from({ length: 100 }, (_, i) => [...meansDays(climate, 1, i).clearness]).flat();
    for (const [i, share] of days.slice(1, -1).entries()) {
      const below = all.filter((k) => k < row[i + 1]!).length / all.length;
      expect(Math.abs(below - share)).toBeLessThan(0.02);
    }
  });

  it.each([
    ['beyond the polar circle', 70, 25],
    ['in the south', -38, 145],
    ['at the equator', 0, -78],
    ['near the date line', 52, 179],
  ])('%s gives whole winters too', (_, latitude_deg, longitude_deg) => {
    const there = winterFrame({ latitude_deg, longitude_deg, elevation_m: 10 });
    const climate = meansClimate(
      climateSchema.parse({
        clearness: new Array(12).fill(0.4).map((k, m) => (latitude_deg === 70 && m === 11 ? null : k)),
        air_degC: THAMES_CLIMATE.air_degC,
      }),
      there,
    );
    const winter = meansWinter(climate, there, 1, 0);
    expect(winter.ghi_W_m2.every(Number.isFinite)).toBe(true);
    expect(winter.air_degC.every(Number.isFinite)).toBe(true);
    const sum = winter.ghi_W_m2.reduce((total, ghi) => total + ghi, 0);
    const outside = climate.months.sky.extraterrestrial_W_m2.reduce((total, ghi) => total + ghi, 0);
    expect(Math.abs(sum / outside - 0.4)).toBeLessThan(0.04);
  });
});
