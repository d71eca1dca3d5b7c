import { describe, expect, test } from 'vitest';
import { capacitorDays, civilHours, markCounts, weatherDays } from '../../sim/statistics/civilHours.ts';
import { energyMonths, energyStatistics } from '../../sim/statistics/energyStatistics.ts';
import { thresholdMonths } from '../../sim/statistics/monthStatistics.ts';
import { inSeason } from '../../sim/statistics/winterStatistics.ts';
import { smallColumns, smallLight, smallNight } from '../output/smallRun.ts';

const YEAR_MS = Date.UTC(2025, 0, 1);

describe('civil dates of a record', () => {
  test('a year in UTC has 365 dates in Berlin: the hour that spills over goes with the last of them', () => {
    const days = civilHours(YEAR_MS, 8760, 'Europe/Berlin');
    expect(days).toHaveLength(365);
    expect(days[0]).toMatchObject({ date: '2025-01-01', from: 0, to: 23, offset_min: 60 });
    expect(days.at(-1)).toMatchObject({ date: '2025-12-31', to: 8760 });
  });

  test('the days on which the clocks change have 23 and 25 hours', () => {
    const days = civilHours(YEAR_MS, 8760, 'Europe/Berlin');
    const hoursOf = (date: string) => {
      const day = days.find((each) => each.date === date)!;
      return day.to - day.from;
    };
    expect([hoursOf('2025-03-30'), hoursOf('2025-10-26'), hoursOf('2025-06-01')]).toEqual([23, 25, 24]);
  });

  test('a day whose first hour the clocks skip is an hour shorter, and the day after it whole', () => {
    const days = civilHours(YEAR_MS, 8760, 'America/Havana');
    const skipped = days.findIndex(({ date }) => date === '2025-03-09');
    expect(days.slice(skipped, skipped + 2).map(({ from, to }) => to - from)).toEqual([23, 24]);
    expect(days[skipped]).toMatchObject({ from: (Date.parse('2025-03-09T05:00Z') - YEAR_MS) / 3_600_000 });
  });

  test('west of Greenwich the first hours go with the first whole date', () => {
    const days = civilHours(YEAR_MS, 48, 'America/New_York');
    expect(days.map(({ date, from, to }) => [date, from, to])).toEqual([
      ['2025-01-01', 0, 29],
      ['2025-01-02', 29, 48],
    ]);
  });

  test('every hour belongs to one date', () => {
    for (const zone of ['Asia/Kolkata', 'Pacific/Chatham', 'UTC', 'Pacific/Apia']) {
      let next = 0;
      for (const { from, to } of civilHours(YEAR_MS, 8760, zone)) {
        expect(from).toBe(next);
        next = to;
      }
      expect(next).toBe(8760);
    }
  });
});

describe('statistics by day and month', () => {
  const columns = smallColumns(24 * 59);
  const light = smallLight(24 * 59, YEAR_MS);
  const days = civilHours(YEAR_MS, 24 * 59, 'UTC');

  test('the months of the energy ledger add up to that of the whole record, part by part', () => {
    const months = energyMonths(columns, light.planeOfArray_W_m2, 0.01, days);
    expect(months.map(({ month }) => month)).toEqual(['2025-01', '2025-02']);
    const whole = energyStatistics(columns, light.planeOfArray_W_m2, 0.01);
    for (const key of Object.keys(whole) as (keyof typeof whole)[]) {
      expect(months[0]![key] + months[1]![key]).toBeCloseTo(whole[key], 6);
    }
  });

  test("a day's band of the capacitor reaches from the lowest within its hours to the highest at their ends", () => {
    const [first] = capacitorDays(columns, days);
    expect(first).toEqual({
      night: '2025-01-01',
      lowest_V: Math.min(...columns.capacitorLowest_V.slice(0, 24)),
      highest_V: Math.max(...columns.capacitorEnd_V.slice(0, 24)),
    });
  });

  test('a day of weather sums its light, and counts filled hours and those that stand in', () => {
    const mark = light.mark.slice();
    mark[1] = 3;
    mark[2] = 4;
    const [first, second] = weatherDays({ ...light, mark }, days);
    expect(first).toEqual({
      night: '2025-01-01',
      ghi_Wh_m2: 24 * 80,
      coldest_degC: -1.25,
      warmest_degC: -1.25,
      filled_h: 2,
    });
    expect(second!.filled_h).toBe(0);
  });

  test('hours are counted by what they rest on', () => {
    expect(markCounts(Uint8Array.of(0, 2, 2, 3))).toEqual([
      { mark: 'measured', hours: 1 },
      { mark: 'split', hours: 2 },
      { mark: 'filled', hours: 1 },
    ]);
  });

  test('light by threshold is a mean over the nights with a promise, time beyond the promise counted as lit', () => {
    const rows = [
      smallNight('2025-12-20', { lit_h: 6, litBeyondPromise_h: 2, aboveHalf_h: 4, aboveFifth_h: 8 }),
      smallNight('2025-12-21', { lit_h: 4, litBeyondPromise_h: 0, aboveHalf_h: 1, aboveFifth_h: 5 }),
      smallNight('2025-12-22', { outcome: 'nothing-promised', aboveHalf_h: 99 }),
      smallNight('2025-12-23', { complete: false, aboveHalf_h: 99 }),
    ];
    expect(thresholdMonths(rows)).toEqual([
      { month: '2025-12', nights: 2, promised_h: 6, abovePromised_h: 6, aboveHalf_h: 2.5, aboveFifth_h: 6.5 },
    ]);
  });
});

describe('the order of the season', () => {
  const rows = ['2025-01-01', '2025-06-30', '2025-07-01', '2025-12-31'].map((night) => ({ night }));
  const order = (winter: string, latitude_deg: number) =>
    inSeason(winter, rows, latitude_deg).map(({ night }) => night.slice(5, 7));

  test('a joined year begins with July north of the equator, with January south of it', () => {
    expect(order('2025 joined', 54)).toEqual(['07', '12', '01', '06']);
    expect(order('2025 joined', -54)).toEqual(['01', '06', '07', '12']);
  });

  test('any other winter stands as it is', () => {
    expect(order('2025/26', 54)).toEqual(['01', '06', '07', '12']);
  });
});
