import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import { monthlyTable } from '../../../sim/statistics/weatherView.ts';
import { fillGaps, LARGEST_FILLED_SHARE } from '../../../sim/weather/gaps/fillGaps.ts';
import { recordOf } from '../../../sim/weather/gaps/recordOf.ts';
import { sunLight } from '../../../sim/weather/quality/SunLight.ts';
import { type HourlyColumns, WEATHER_MARKS } from '../../../sim/weather/WeatherRecord.ts';
import { GARDEN, gardenYear, hourOf2021, madeRecord, YEAR_2021_MS } from '../quality/madeRecord.ts';

const LIGHT = sunLight(YEAR_2021_MS, 8760, GARDEN);
const FILLED = WEATHER_MARKS.indexOf('filled');

function withGaps(
  record: HourlyColumns,
  gaps: readonly (readonly [from: number, hours: number])[],
): HourlyColumns {
  const ghi_W_m2 = Float64Array.from(record.ghi_W_m2);
  for (const [from, hours] of gaps) ghi_W_m2.fill(Number.NaN, from, from + hours);
  return { ...record, ghi_W_m2 };
}

describe('fillGaps', () => {
  it('changes no measured hour and marks each filled one', () => {
    const truth = gardenYear(21);
    const gaps = [
      [hourOf2021(3, 4, 9), 2],
      [hourOf2021(6, 20, 7), 60],
      [hourOf2021(12, 24, 22), 5],
    ] as const;
    const result = fillGaps(withGaps(truth, gaps), LIGHT);
    const missing = new Uint8Array(8760);
    for (const [from, hours] of gaps) missing.fill(1, from, from + hours);
    expect(result.filled).toEqual(missing);
    for (let i = 0; i < 8760; i++) {
      expect(result.mark[i]).toBe(missing[i] === 1 ? FILLED : 0);
      if (missing[i] === 0) expect(result.ghi_W_m2[i]).toBe(truth.ghi_W_m2[i]);
    }
    expect(result.interpolated_h + result.fromDays_h + result.dark_h).toBe(67);
    expect(result.absent_h).toBe(0);
    expect(result.ghi_W_m2.subarray(hourOf2021(12, 24, 22), hourOf2021(12, 25, 3))).toEqual(
      new Float64Array(5),
    );
  });

  it('counts hours filled by an earlier reading as filled, and leaves months as they are judged here', () => {
    const rests = new Uint8Array(8760).fill(FILLED, 0, 700);
    rests.fill(WEATHER_MARKS.indexOf('closed'), 700, 800);
    const result = fillGaps(withGaps(gardenYear(21), [[750, 2]]), LIGHT, rests);
    expect([699, 700, 750, 752, 800].map((i) => WEATHER_MARKS[result.mark[i]!])).toEqual([
      'filled',
      'closed',
      'filled',
      'closed',
      'measured',
    ]);
    expect(result.filled.reduce((sum, flag) => sum + flag, 0)).toBe(702);
    expect(result.months[0]!.state).toBe('whole');
  });

  it('fills up to three hours along the clearness of their neighbours, four from whole days', () => {
    const truth = gardenYear(22);
    const noon = hourOf2021(5, 6, 10);
    // Clearness 0.4 before, 0.6 after.
    truth.ghi_W_m2[noon - 1] = 0.4 * LIGHT.outside_W_m2[noon - 1]!;
    truth.ghi_W_m2[noon + 3] = 0.6 * LIGHT.outside_W_m2[noon + 3]!;
    const result = fillGaps(withGaps(truth, [[noon, 3]]), LIGHT);
    expect(result.interpolated_h).toBe(3);
    for (const [i, clearness] of [0.45, 0.5, 0.55].entries()) {
      expect(result.ghi_W_m2[noon + i]).toBeCloseTo(clearness * LIGHT.outside_W_m2[noon + i]!, 9);
    }
    expect(fillGaps(withGaps(truth, [[noon, 4]]), LIGHT)).toMatchObject({ interpolated_h: 0, fromDays_h: 4 });
  });

  it('fills longer gaps from the whole days around, mirrored at the edges and scaled to the season', () => {
    const truth = gardenYear(23);
    const first = hourOf2021(3, 10, 0);
    const result = fillGaps(withGaps(truth, [[first, 72]]), LIGHT);
    const donors = [first - 24, first - 48, first + 72];
    const nearest = [donors[0]!, undefined, donors[2]!];
    for (const [day, donor] of nearest.entries()) {
      if (donor === undefined) continue;
      const noon = 11;
      const to = first + 24 * day + noon;
      const clearness = truth.ghi_W_m2[donor + noon]! / LIGHT.outside_W_m2[donor + noon]!;
      expect(result.ghi_W_m2[to]! / LIGHT.outside_W_m2[to]!).toBeCloseTo(clearness, 9);
      expect(result.ghi_W_m2[to]).not.toBe(truth.ghi_W_m2[donor + noon]);
    }
    // The middle day has a whole day two days away on both sides; one of the two is taken.
    const middle = first + 24 + 11;
    const clearness = result.ghi_W_m2[middle]! / LIGHT.outside_W_m2[middle]!;
    const either = [first - 48 + 11, first + 96 + 11].map((i) => truth.ghi_W_m2[i]! / LIGHT.outside_W_m2[i]!);
    expect(either.some((value) => Math.abs(value - clearness) < 1e-9)).toBe(true);
  });

  it('fills a first day that lacks its morning and a last one that lacks its evening by the same hours', () => {
    const start_ms = Date.UTC(2021, 5, 1, 9);
    const hours = 19 * 24 - 1;
    const light = sunLight(start_ms, hours, GARDEN);
    const truth = madeRecord({ ...GARDEN, seed: 24, start_ms, hours, step_W_m2: 0.1, mean: 0.45 });
    const gaps = [
      [0, 8],
      [hours - 5, 5],
    ] as const;
    const { ghi_W_m2, absent_h } = fillGaps(withGaps(truth, gaps), light);
    expect(absent_h).toBe(0);
    for (const [i, donor] of [
      [3, 27],
      [hours - 2, hours - 26],
    ] as const) {
      const clearness = truth.ghi_W_m2[donor]! / light.outside_W_m2[donor]!;
      expect(ghi_W_m2[i]! / light.outside_W_m2[i]!).toBeCloseTo(clearness, 9);
    }
  });

  it('never exceeds the cleanest cloudless sky and never gives light in the dark', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e5 }), fc.integer({ min: 0, max: 8000 }), (seed, from) => {
        const result = fillGaps(withGaps(gardenYear(seed), [[from, 1 + (seed % 300)]]), LIGHT);
        for (let i = 0; i < 8760; i++) {
          if (result.filled[i] === 0) continue;
          expect(result.ghi_W_m2[i]).toBeLessThanOrEqual(LIGHT.cleanest_W_m2[i]!);
          expect(result.ghi_W_m2[i]).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 15, seed: 11 },
    );
  });

  it('keeps the light of months within the share that needs no acceptance', () => {
    // Error of a month's irradiation over its truth, all months of 40 years with random gaps of hours to days.
    const errors: number[] = [];
    const shares: number[] = [];
    for (let seed = 1; seed <= 40; seed++) {
      const truth = gardenYear(seed);
      const random = randomStream(seed, 'gaps');
      const gaps = Array.from({ length: 30 }, () => {
        const hours = Math.ceil(random.uniform() < 0.7 ? 6 * random.uniform() : 60 * random.uniform());
        return [Math.floor(random.uniform() * 8690), hours] as const;
      });
      const result = fillGaps(withGaps(truth, gaps), LIGHT);
      const before = monthlyTable(truth, LIGHT).months;
      const after = monthlyTable(result, LIGHT).months;
      result.months.forEach((month, m) => {
        const share = month.filledDaylight_h / month.daylight_h;
        if (month.state !== 'filled') return;
        errors.push(after[m]!.ghi_kWh_m2_day / before[m]!.ghi_kWh_m2_day - 1);
        shares.push(share);
      });
    }
    expect(errors.length).toBeGreaterThan(200);
    expect(Math.max(...shares)).toBeLessThanOrEqual(LARGEST_FILLED_SHARE);
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    const spread = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);
    // The mean error is bound by the number of months (0.03 over the root of 200) and the cap at the clear sky.
    expect(Math.abs(mean)).toBeLessThan(0.006);
    // What the weather of neighbouring days differs by, see LARGEST_FILLED_SHARE.
    expect(spread).toBeLessThan(0.04);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.2);
  });

  it('leaves a missing winter absent, nights included', () => {
    const result = fillGaps(withGaps(gardenYear(24), [[hourOf2021(1, 5, 6), 50 * 24]]), LIGHT);
    const winter = result.ghi_W_m2.subarray(hourOf2021(1, 6, 0), hourOf2021(2, 23, 0));
    expect(winter.every(Number.isNaN)).toBe(true);
    expect(result.months.slice(0, 3).map(({ state }) => state)).toEqual(['absent', 'absent', 'whole']);
    const months = monthlyTable(result, LIGHT, result).months;
    expect(months[1]!.ghi_kWh_m2_day).toBeGreaterThan(0); // the last days of February are measured
    expect(months[0]!.coverage).toBeLessThan(0.2);
  });

  it('gives back a month of which most would be filled', () => {
    const result = fillGaps(
      withGaps(gardenYear(25), [
        [hourOf2021(12, 2, 0), 9 * 24],
        [hourOf2021(12, 15, 0), 9 * 24],
      ]),
      LIGHT,
    );
    expect(result.months[11]).toMatchObject({ state: 'absent', filledDaylight_h: 0 });
    expect(result.ghi_W_m2[hourOf2021(12, 3, 11)]).toBeNaN();
  });

  it('closes global irradiance from direct and diffuse before it fills', () => {
    const truth = gardenYear(26);
    const noon = hourOf2021(7, 1, 11);
    const up = LIGHT.sun.upCosZenith[noon]! * LIGHT.sun.upShare[noon]!;
    const columns = {
      ...withGaps(truth, [[noon, 2]]),
      dni_W_m2: new Float64Array(8760).fill(300),
      dhi_W_m2: new Float64Array(8760).fill(100),
    };
    columns.dhi_W_m2[noon + 1] = Number.NaN;
    const result = fillGaps(columns, LIGHT);
    expect(result.ghi_W_m2[noon]).toBeCloseTo(100 + 300 * up, 9);
    expect([...result.mark.subarray(noon, noon + 2)]).toEqual([WEATHER_MARKS.indexOf('closed'), FILLED]);
    expect(result.dni_W_m2![noon]).toBe(300);
    expect(result.dni_W_m2![noon + 1]).toBeNaN();
  });

  it('hands over a record without gaps that says what was filled', () => {
    const columns = withGaps(gardenYear(27), [[hourOf2021(9, 1, 8), 30]]);
    const record = recordOf(
      fillGaps({ ...columns, wind_m_s: new Float64Array(8760).fill(Number.NaN) }, LIGHT),
      {
        from: 0,
        to: 8760,
        site: GARDEN,
        origin: { file: 'made-up.csv', sha256: '', options: { stamp: 'UTC' } },
      },
    );
    expect(record.ghi_W_m2.some(Number.isNaN)).toBe(false);
    expect(record.origin).toEqual({
      file: 'made-up.csv',
      sha256: '',
      options: {
        stamp: 'UTC',
        'filled hours': '30 of 8760, marked hour by hour',
        wind: 'not used: hours of it are missing',
      },
      filledHours: 30,
    });
    expect(record.wind_m_s).toBeUndefined();
    expect(record.mark.filter((mark) => mark === FILLED)).toHaveLength(30);
  });
});
