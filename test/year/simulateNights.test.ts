import { describe, expect, it } from 'vitest';
import type { NightTotals } from '../../sim/year/NightTotals.ts';
import {
  simulateNights,
  simulateTimes,
  simulateYear,
  type YearOptions,
} from '../../sim/year/simulateYear.ts';
import { HOUR_TIMES } from '../../sim/year/YearColumns.ts';
import { makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from './days.ts';
import { DEMO, demoLight } from './demoStretch.ts';
import { dummyLight } from './dummyLight.ts';
import { OUTSIDE_CASES } from './outsideCases.ts';

const LIGHT = demoLight('lawn');
const LAMP = DEMO.lamps[0]!.params;
const options = (start: YearOptions['start']): YearOptions => ({
  timeZone: DEMO.site.timeZone,
  promise: DEMO.promise,
  start,
});

/** Every number of some nights, in order. */
function numbers(nights: NightTotals, first = 0, end = nights.count): number[] {
  const columns = Object.values(nights).filter((column) => column instanceof Float64Array);
  return [...columns, ...nights.shortBy_s].flatMap((column) => [...column.slice(first, end)]);
}

describe('simulateNights, and simulateTimes', () => {
  it.each(OUTSIDE_CASES)('gives the nights of simulateYear bit for bit: $name', ({ trips }) => {
    for (const { lamp, light, options } of trips(4)) {
      const year = simulateYear(lamp, light, options);
      const lean = simulateNights(lamp, light, options);
      expect(numbers(lean.nights)).toEqual(numbers(year.nights));
      const { columns, chargeResidual, energyResidual, worstHour, nights, ...said } = year;
      expect(lean).toEqual({ ...said, nights: lean.nights });
      const timed = simulateTimes(lamp, light, options);
      expect(numbers(timed.nights)).toEqual(numbers(year.nights));
      for (const name of HOUR_TIMES) expect(timed.columns[name], name).toEqual(columns[name]);
    }
  });

  it('does so over a cyclic year', () => {
    const year = simulateYear(LAMP, LIGHT, options('cyclic'));
    const lean = simulateNights(LAMP, LIGHT, options('cyclic'));
    expect(numbers(lean.nights)).toEqual(numbers(year.nights));
    expect(lean.startCapacitor_V).toBe(year.startCapacitor_V);
  });
});

describe('a stretch of nights', () => {
  const start = { capacitor_V: 1.7 };

  it('is the beginning of any longer one from the same noon, night for night', () => {
    const long = simulateNights(LAMP, LIGHT, options(start), { first: 300, end: 345 });
    const short = simulateNights(LAMP, LIGHT, options(start), { first: 300, end: 310 });
    expect(short.nights.count).toBe(10);
    expect(numbers(short.nights)).toEqual(numbers(long.nights, 0, 10));
    expect(long.firstNight).toBe(short.firstNight);
    expect(LIGHT.nights.eveningDate[long.firstNight]?.slice(5)).toBe('10-28');
  });

  it('is what simulateYear makes of a record that begins at the same noon', () => {
    const peaks = [300, 90, 40, 600, 150, 20, 220, 410, 75, 130, 55, 260];
    const hours = peaks.flatMap((peak_W_m2) => sineDay(8, 16, peak_W_m2));
    const dawdle = dummyLight('2026-01-10T00:00:00Z', hours, 4);
    const fromNoon = dummyLight('2026-01-14T12:00:00Z', hours.slice(4 * 24 + 12), 4);
    // A jar that warms up would remember the hours before.
    for (const delayed_share of [0, 0.1]) {
      const { capacitor } = libraryLamp();
      const lamp = makeLamp(
        libraryLamp({ capacitor: { ...capacitor, delayed_share }, jar: { fixed_degC: 4 } }),
      );
      const year = simulateYear(lamp, fromNoon, options(start));
      const stretch = simulateNights(lamp, dawdle, options(start), { first: 4, end: 10 });
      expect(numbers(stretch.nights)).toHaveLength(6 * 18);
      const said = (nights: NightTotals) =>
        numbers({ ...nights, firstShort_s: new Float64Array(nights.count) }, 0, 6);
      said(stretch.nights).forEach((value, i) => {
        expect(Math.abs(value - said(year.nights)[i]!)).toBeLessThan(1e-9 * Math.max(1, Math.abs(value)));
      });
    }
  });

  it('from the first noon on is the joined year, begun with the same voltage', () => {
    const whole = simulateNights(LAMP, LIGHT, options(start), { first: 0, end: 365 });
    expect(whole.joined).toBe(true);
    const some = simulateNights(LAMP, LIGHT, options(start), { first: 0, end: 40 });
    expect(numbers(some.nights)).toEqual(numbers(whole.nights, 0, 40));
    // The year that a cyclic run goes through, where the capacitor without delayed branches is the whole state.
    const plain = makeLamp(
      libraryLamp({
        capacitor: { capacitance_F: 360, rated_V: 2.7, esr_mohm: 7, leakage_uA: 700, delayed_share: 0 },
        schedule: { on: 'dusk', hours: 6 },
      }),
    );
    const cyclic = simulateYear(plain, LIGHT, options('cyclic'));
    const again = simulateNights(plain, LIGHT, options({ capacitor_V: cyclic.startCapacitor_V }), {
      first: 0,
      end: 365,
    });
    expect(again.firstNight).toBe(cyclic.firstNight);
    // It begins without the rate of a step before, about which the next is expanded.
    for (let night = 0; night < 365; night++) {
      expect(Math.abs(again.nights.dusk_V[night]! - cyclic.nights.dusk_V[night]!)).toBeLessThan(1e-4);
      expect(Math.abs(again.nights.lit_s[night]! - cyclic.nights.lit_s[night]!)).toBeLessThan(1);
    }
  });

  it('crosses the seam of a joined year', () => {
    const across = simulateNights(LAMP, LIGHT, options(start), { first: 360, end: 365 });
    expect(across.nights.count).toBe(5);
    expect(across.nights.promised_s.every((promised_s) => Math.abs(promised_s - 6 * 3600) < 1)).toBe(true);
    expect(across.nights.dawn_V.some(Number.isNaN)).toBe(false);
  });

  it('gives a lamp that senses the dark the same nights as its whole year', () => {
    const senses = makeLamp(
      libraryLamp({
        schedule: { on: 'dark', hours: 6, sense: { by: 'lux', night_below_lux: 10, day_above_lux: 20 } },
      }),
    );
    const whole = simulateNights(senses, LIGHT, options(start), { first: 0, end: 365 });
    const tail = simulateNights(senses, LIGHT, options(start), { first: 330, end: 365 });
    for (let night = 0; night < 34; night++) {
      expect(tail.nights.dusk_V[night]).toBeGreaterThan(0);
      expect(tail.nights.promised_s[night]).toBeCloseTo(whole.nights.promised_s[330 + night]!, 6);
    }
    // Ten nights on, the start is forgotten but for delayed branches.
    expect(tail.nights.dusk_V[30]).toBeCloseTo(whole.nights.dusk_V[360]!, 2);
  });

  it.each([
    [-1, 5],
    [10, 10],
    [12, 10],
    [360, 400],
  ])('from %i to %i is refused', (first, end) => {
    expect(() => simulateNights(LAMP, LIGHT, options(start), { first, end })).toThrow();
  });

  it('is no cycle', () => {
    expect(() => simulateNights(LAMP, LIGHT, options('cyclic'), { first: 0, end: 5 })).toThrow('no cycle');
  });
});
