import { describe, expect, it } from 'vitest';
import { drawnDays, repeatedDays } from '../../../sim/weather/quality/filledDays.ts';
import { type SunLight, sunLight } from '../../../sim/weather/quality/SunLight.ts';
import { GARDEN, gardenYear, hourOf2021, madeRecord, YEAR_2021_MS } from './madeRecord.ts';

const round = (value: number, step: number): number => Math.round(value / step) * step;

/** Draws days hour by hour between the day before and the day after. */
function drawBetween(ghi_W_m2: Float64Array, from: number, days: number, step = 0.1): void {
  for (let i = from; i < from + 24 * days; i++) {
    const [day, hour] = [Math.floor((i - from) / 24), (i - from) % 24];
    const part = (day + 1) / (days + 1);
    const [before, after] = [ghi_W_m2[from - 24 + hour]!, ghi_W_m2[from + 24 * days + hour]!];
    ghi_W_m2[i] = round(before * (1 - part) + after * part, step);
  }
}

function found(record: ReturnType<typeof gardenYear>, step = 0.1, site = GARDEN) {
  const light = sunLight(record.start_ms, record.count, site);
  return drawnDays({ values: record.ghi_W_m2, light, resolution_W_m2: step }).map(({ from, to }) => [
    from,
    (to - from) / 24,
  ]);
}

describe('days drawn from those around them', () => {
  it.each([
    [11, 30, 0.1],
    [12, 31, 0.1],
    [1, 14, 1],
    [2, 28, 1],
    [6, 4, 0.1],
  ])('from %d on, %d of them in steps of %d W/m2, are found whole', (month, days, step) => {
    const record = gardenYear(21);
    const from = hourOf2021(month, month === 12 ? 1 : 3, 0);
    const kept = month === 12 ? days - 1 : days;
    record.ghi_W_m2.forEach((value, i, all) => {
      all[i] = round(value, step);
    });
    drawBetween(record.ghi_W_m2, from, kept, step);
    expect(found(record, step)).toEqual([[from, kept]]);
  });

  it('are at least four', () => {
    const record = gardenYear(21);
    drawBetween(record.ghi_W_m2, hourOf2021(6, 3, 0), 3);
    expect(found(record)).toEqual([]);
  });

  it('are found where each is the day before times a factor, brighter or duller', () => {
    const record = gardenYear(22);
    const from = hourOf2021(11, 10, 0);
    const factors = [0.9, 1.2, 0.85, 1.1, 0.97];
    factors.forEach((factor, day) => {
      for (let i = from + 24 * day; i < from + 24 * (day + 1); i++)
        record.ghi_W_m2[i] = round(record.ghi_W_m2[i - 24]! * factor, 0.1);
    });
    expect(found(record)).toEqual([[from, factors.length]]);
  });

  it('are found between cloudless days only where they are ten', () => {
    const clear = () =>
      madeRecord({ ...GARDEN, seed: 23, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2: 0.1, mean: 0.97 });
    const from = hourOf2021(7, 3, 0);
    const [nine, ten] = [clear(), clear()];
    drawBetween(nine.ghi_W_m2, from, 9);
    drawBetween(ten.ghi_W_m2, from, 10);
    expect(found(nine)).toEqual([]);
    expect(found(ten)).toEqual([[from, 10]]);
  });

  it.each([
    [20, 1],
    [19.5, 0],
  ])(
    'are judged by light of twenty steps and more: from %d W/m2 in steps of 1 they are found %d times',
    (least, times) => {
      const count = 60 * 24;
      const isDay = (i: number): boolean => i % 24 >= 8 && i % 24 < 16;
      const changing = (i: number): number => 100 + 300 * Math.abs(Math.sin(i * i));
      const values = Float64Array.from({ length: count }, (_, i) => (isDay(i) ? changing(i) : 0));
      for (let i = 20 * 24; i < 30 * 24; i++)
        if (isDay(i)) values[i] = least + 0.04 * (Math.floor(i / 24) - 20);
      const sun = { start_ms: 0, count };
      const cleanest_W_m2 = new Float64Array(count).fill(1000);
      const light = { sun, dayShift_ms: 0, cleanest_W_m2 } as unknown as SunLight;
      expect(drawnDays({ values, light, resolution_W_m2: 1 })).toHaveLength(times);
    },
  );

  it('are none in the skies of other places, steps and clouds, nor where noise is twice the rounding', () => {
    for (const [latitude_deg, mean, step_W_m2] of [
      [24, 0.995, 1],
      [24, 0.995, 2.78],
      [24, 0.995, 5],
      [60, 0.2, 1],
      [54, 0.45, 2.78],
      [35, 0.9, 0.1],
      [-33, 0.6, 4.9],
    ] as const) {
      const site = { latitude_deg, longitude_deg: 10, elevation_m: 0 };
      const record = madeRecord({ ...site, seed: 24, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2, mean });
      expect(found(record, step_W_m2, site)).toEqual([]);
    }
    const noisy = gardenYear(21);
    const from = hourOf2021(11, 3, 0);
    drawBetween(noisy.ghi_W_m2, from, 20);
    for (let i = from; i < from + 480; i++)
      if (noisy.ghi_W_m2[i]! > 0) noisy.ghi_W_m2[i]! += 0.3 * Math.sin(i * i);
    expect(found(noisy)).toEqual([]);
  });
});

const TELLING = 5;

/** Days of five telling hours each, no two values alike but for one day that repeats the one before. */
function recordWithCopy(days: number): { values: Float64Array; light: SunLight } {
  const count = days * 24;
  const values = new Float64Array(count);
  const hourAngle_deg = Float64Array.from({ length: count }, (_, i) => ((i % 24) - 12) * 15);
  for (let day = 0; day < days; day++) {
    for (let k = 0; k < TELLING; k++) values[day * 24 + 10 + k] = 100 + 0.01 * (day * TELLING + k);
  }
  const copied = Math.floor(days / 2) * 24;
  values.copyWithin(copied, copied - 24, copied);
  const sun = { start_ms: 0, count, hourAngle_deg, upShare: new Float64Array(count).fill(1) };
  return { values, light: { sun } as unknown as SunLight };
}

// Of the sixty hours on the twelve days before none is equal, so an hour is by chance with 1 in 62, five hours with
// 1 in 62^5, on any of the days: 0.65 times in a million records of 600 days, 1.4 times in those of 1300.
it.each([
  [600, 1],
  [1300, 0],
])('in %d days a repeated day of five hours of light is found %d times', (days, times) => {
  const { values, light } = recordWithCopy(days);
  expect(repeatedDays({ values, light, resolution_W_m2: 0.01 })).toHaveLength(times);
});
