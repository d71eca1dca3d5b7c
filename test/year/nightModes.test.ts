import { describe, expect, it } from 'vitest';
import type { PromiseSection } from '../../sim/lamp/schedule/schema.ts';
import { SHORT_CAUSES, type ShortCause } from '../../sim/year/NightTotals.ts';
import { simulateYear, type YearResult, type YearStart } from '../../sim/year/simulateYear.ts';
import { idealCapacitor, idealLamp, type LampInput, makeLamp, RAW_LED } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from './days.ts';
import { type DummyNights, dummyLight } from './dummyLight.ts';

/** 40 mA from 100 F: 1.44 V an hour. 10 mA: 0.36 V an hour. */
const TEN_MA = { kind: 'current', current_mA: 10, cutoff_V: 0.9, restart_V: 1.2 } as const;
const PROMISE: PromiseSection = { from: 'dusk', hours: 6, least_lumen: 0.01, tolerance_h: 0.25 };

interface Case {
  driver?: LampInput['driver'];
  schedule?: LampInput['schedule'];
  promise?: Partial<PromiseSection>;
  start?: YearStart;
  light?: ArrayLike<number>;
  nights?: DummyNights;
  from?: string;
  timeZone?: string;
}

/** A lamp of 100 F in hours that begin at noon; dark unless stated. */
function run(given: Case): YearResult {
  const lamp = idealLamp(given.driver ?? TEN_MA, idealCapacitor(100), given.schedule);
  const light = dummyLight(
    given.from ?? '2026-01-10T12:00:00Z',
    given.light ?? new Float64Array(24),
    25,
    given.nights,
  );
  return simulateYear(lamp, light, {
    timeZone: given.timeZone ?? 'UTC',
    promise: { ...PROMISE, ...given.promise },
    start: given.start ?? { capacitor_V: 2.4 },
  });
}

function shortCauses(year: YearResult, night = 0): Partial<Record<ShortCause, number>> {
  const found: Partial<Record<ShortCause, number>> = {};
  SHORT_CAUSES.forEach((name, row) => {
    const short_s = year.nights.shortBy_s[row]![night]!;
    if (short_s > 0) found[name] = short_s;
  });
  return found;
}

const HOUR_S = 3600;
/** Dusk 6 h, dawn 18 h after the noon at which the record begins. */
const DUSK_S = 6 * HOUR_S;

describe('a night in the dark', () => {
  it('runs empty at the instant the capacitor reaches the cut-off', () => {
    const year = run({});
    // 100 F * 1.5 V / 10 mA = 15000 s.
    expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S + 15_000, 2);
    expect(shortCauses(year)).toEqual({ 'ran-empty': expect.closeTo(6 * HOUR_S - 15_000, 2) });
    expect(year.nights.lit_s[0]).toBeCloseTo(15_000, 2);
    expect(year.nights.promised_s[0]).toBeCloseTo(6 * HOUR_S, 6);
    expect(year.nights.dusk_V[0]).toBeCloseTo(2.4, 9);
    expect(year.nights.dawn_V[0]).toBeCloseTo(0.9, 6);
    expect(year.nights.lowest_V[0]).toBeCloseTo(0.9, 6);
  });

  it('begins below the cut-off where the capacitor is too low at dusk', () => {
    const year = run({ start: { capacitor_V: 0.85 } });
    expect(shortCauses(year)).toEqual({ 'still-empty': expect.closeTo(6 * HOUR_S, 6) });
    expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S, 6);
    expect(year.nights.shining_s[0]).toBe(0);
  });

  it('is dark at first where the schedule begins after the promise, and says switched-on-late', () => {
    const year = run({ schedule: { on: '20:00', hours: 4 }, promise: { hours: 3 } });
    expect(shortCauses(year)).toEqual({ 'switched-on-late': expect.closeTo(2 * HOUR_S, 6) });
    expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S, 6);
  });

  it('is dark where the schedule ends before the promise, and says not-scheduled', () => {
    const year = run({ schedule: { on: 'dusk', hours: 1 }, promise: { hours: 3 } });
    expect(shortCauses(year)).toEqual({ 'not-scheduled': expect.closeTo(2 * HOUR_S, 6) });
    expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S + HOUR_S, 6);
  });

  it('is too dim from the instant the light falls below the promised level', () => {
    // Conductance 4 mS on 100 F; light = 0.9 * 4 mS V2 * 150 lm/W; half of it at V = 2.4 / sqrt 2.
    const year = run({
      driver: { kind: 'conductance', conductance_mS: 4, efficiency: 0.9, cutoff_V: 0.5, restart_V: 1 },
      promise: { least_lumen: (0.9 * 0.004 * 2.4 ** 2 * 150) / 2 },
    });
    const half_s = (100 / 0.004) * Math.log(Math.SQRT2);
    expect(shortCauses(year)).toEqual({ 'too-dim': expect.closeTo(6 * HOUR_S - half_s, -0.5) });
    expect(Math.abs(year.nights.firstShort_s[0]! - DUSK_S - half_s)).toBeLessThan(2);
    expect(Math.abs(year.nights.aboveHalf_s[0]! - half_s)).toBeLessThan(2);
    expect(Math.abs(year.nights.aboveFifth_s[0]! - (100 / 0.004) * Math.log(Math.sqrt(5)))).toBeLessThan(2);
  });

  it('gives lumens equal to efficiency times power times efficacy', () => {
    const year = run({
      driver: { kind: 'power', power_mW: 10, efficiency: 0.8, cutoff_V: 0.5, restart_V: 1 },
      schedule: { on: 'dusk', hours: 2 },
    });
    expect(year.nights.light_lm_h[0]).toBeCloseTo(0.01 * 0.8 * 150 * 2, 6);
    const sum = (column: Float64Array) => column.reduce((a, b) => a + b, 0);
    expect(sum(year.columns.led_J)).toBeCloseTo(0.01 * 0.8 * 2 * HOUR_S, 6);
    expect(sum(year.columns.driverLoss_J)).toBeCloseTo(0.01 * 0.2 * 2 * HOUR_S, 6);
    expect(sum(year.columns.led_C)).toBeCloseTo(((0.01 * 0.8) / 3) * 2 * HOUR_S, 6);
  });

  it('counts light outside the promise apart', () => {
    const year = run({ schedule: { on: 'dusk', hours: 3 }, promise: { hours: 1 } });
    expect(year.nights.lit_s[0]).toBeCloseTo(HOUR_S, 6);
    expect(year.nights.litBeyondPromise_s[0]).toBeCloseTo(2 * HOUR_S, 6);
    expect(year.nights.shining_s[0]).toBeCloseTo(3 * HOUR_S, 6);
  });
});

describe('the schedule', () => {
  const shining_h = (year: YearResult) => Array.from(year.columns.shining_s, (s) => s / HOUR_S);

  it('shines from dusk until dawn', () => {
    const hours = shining_h(
      run({ schedule: { on: 'dusk', until: 'dawn' }, driver: { ...TEN_MA, current_mA: 1 } }),
    );
    expect(hours.map((h) => Math.round(h))).toEqual([
      0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0,
    ]);
  });

  it('shines between two clock times, over midnight too, in the civil time of the zone', () => {
    // 22:30 to 01:15 in Berlin's winter is 21:30 to 00:15 UTC.
    const hours = shining_h(
      run({ schedule: { on: '22:30', until: '01:15' }, timeZone: 'Europe/Berlin', driver: { ...TEN_MA } }),
    );
    expect(hours[9]).toBeCloseTo(0.5, 9);
    expect(hours[10]).toBeCloseTo(1, 9);
    expect(hours[12]).toBeCloseTo(0.25, 9);
    expect(hours.reduce((a, b) => a + b, 0)).toBeCloseTo(2.75, 9);
  });

  it('shines a second time before dawn, without overlap', () => {
    const hours = shining_h(run({ schedule: { on: 'dusk', hours: 1, before_dawn_h: 1.5 } }));
    expect(hours.reduce((a, b) => a + b, 0)).toBeCloseTo(2.5, 9);
    expect(hours[16]).toBeCloseTo(0.5, 9);
    expect(hours[17]).toBeCloseTo(1, 9);
    const merged = run({
      schedule: { on: 'dusk', hours: 11, before_dawn_h: 3 },
      driver: { ...TEN_MA, current_mA: 1 },
    });
    expect(merged.nights.shining_s[0]).toBeCloseTo(12 * HOUR_S, 6);
  });

  it('draws the share of the driver that flashes and dimming leave', () => {
    const year = run({
      schedule: {
        on: 'dusk',
        hours: 6,
        on_share: 0.5,
        dim: [
          { after_h: 2, light_share: 0.4 },
          { after_h: 4, light_share: 0 },
        ],
      },
      promise: { hours: 5 },
    });
    const spent_C = 0.01 * HOUR_S * (2 * 0.5 + 2 * 0.2);
    expect(year.endCapacitor_V).toBeCloseTo(2.4 - spent_C / 100, 9);
    expect(shortCauses(year)).toEqual({ 'not-scheduled': expect.closeTo(HOUR_S, 6) });
    expect(year.nights.aboveHalf_s[0]).toBeCloseTo(2 * HOUR_S, 0);
  });

  it('holds the promise of flashes against their light while on', () => {
    const full_lm = 0.01 * 0.9 * 150;
    const flashing = (least_lumen: number) =>
      run({
        driver: {
          kind: 'power',
          power_mW: 10,
          efficiency: 0.9,
          cutoff_V: 0.5,
          restart_V: 1,
          standby_uA: 100,
        },
        schedule: { on: 'dusk', hours: 4, on_share: 0.25 },
        promise: { least_lumen, hours: 4 },
      });
    const year = flashing(0.99 * full_lm);
    expect(shortCauses(year)).toEqual({});
    expect(shortCauses(flashing(1.01 * full_lm))).toEqual({ 'too-dim': expect.closeTo(4 * HOUR_S, 6) });
    // What it gives and draws is the mean; between flashes it draws its standby.
    const sum = (column: Float64Array, from = 6, to = 10) =>
      column.slice(from, to).reduce((a, b) => a + b, 0);
    expect(year.nights.light_lm_h[0]).toBeCloseTo(full_lm, 6);
    expect(sum(year.columns.led_J)).toBeCloseTo(0.25 * 0.9 * 0.01 * 4 * HOUR_S, 6);
    expect(sum(year.columns.standby_J)).toBeCloseTo(
      0.75 * 1e-4 * HOUR_S * sum(year.columns.capacitorEnd_V.map((v, i, all) => (v + all[i - 1]!) / 2)),
      3,
    );
    expect(sum(year.columns.shining_s)).toBeCloseTo(4 * HOUR_S, 6);
    expect(sum(year.columns.ledOn_s)).toBeCloseTo(HOUR_S, 6);
  });

  it('counts a lamp that waits for motion by whether it would shine', () => {
    // Seldom triggered: it sinks by its standby alone, from 0.92 V below the cut-off of 0.9 V in two hours.
    const waiting = (least_lumen: number, driver: object = {}) =>
      run({
        driver: { ...TEN_MA, efficiency: 0.9, standby_uA: 278, below_cutoff_uA: 0, ...driver },
        start: { capacitor_V: 0.95 },
        schedule: { on: 'dusk', hours: 6, motion: { triggers_per_h: 1e-9, shines_s: 1 } },
        promise: { hours: 4, least_lumen },
      });
    // Six hours by day take 0.06 V: 0.89 V are below the cut-off already.
    expect(shortCauses(waiting(0.01))).toEqual({ 'still-empty': expect.closeTo(4 * HOUR_S, 6) });
    const alert = waiting(0.01, { standby_uA: 150 });
    const out_s = (100 * (0.95 - 0.9)) / 150e-6 - DUSK_S;
    expect(alert.nights.lit_s[0]).toBeCloseTo(out_s, 1);
    expect(shortCauses(alert)).toEqual({ 'ran-empty': expect.closeTo(4 * HOUR_S - out_s, 1) });
    expect(alert.nights.light_lm_h[0]).toBe(0);
    // At 0.9 V a driver of 10 mA gives 0.9 * 9 mW * 150 lm/W.
    const faint = waiting(0.01 * 0.93 * 0.9 * 150, { standby_uA: 70 });
    const dim_s = (100 * (0.95 - 0.93)) / 70e-6 - DUSK_S;
    expect(Math.abs(faint.nights.lit_s[0]! - dim_s)).toBeLessThan(2);
    expect(Object.keys(shortCauses(faint))).toEqual(['too-dim']);
  });

  it('is dim by a dim step: light that is promised in full is too dim at half of it', () => {
    const full_lm = 0.01 * 0.9 * 150;
    const year = run({
      driver: { kind: 'power', power_mW: 10, cutoff_V: 0.5, restart_V: 1 },
      schedule: { on: 'dusk', hours: 6, dim: [{ after_h: 2, light_share: 0.5 }] },
      promise: { least_lumen: 0.8 * full_lm, hours: 3 },
    });
    expect(shortCauses(year)).toEqual({ 'too-dim': expect.closeTo(HOUR_S, 6) });
    expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S + 2 * HOUR_S, 6);
  });
});

describe('stop and restart', () => {
  /** A cell that keeps filling the capacitor while it shines; light only in the hours stated, from the noon on. */
  const lit = (from_h: number, to_h: number, light_W_m2: number, hours = 24) =>
    Array.from({ length: hours }, (_, i) => (i >= from_h && i < to_h ? light_W_m2 : 0));

  it('comes back on voltage alone while the schedule holds', () => {
    const year = run({
      start: { capacitor_V: 0.7 },
      schedule: { on: '13:00', hours: 8 },
      promise: { from: '13:00', hours: 5 },
      light: lit(1, 6, 200),
    });
    expect(Object.keys(shortCauses(year))).toEqual(['still-empty']);
    expect(year.nights.lit_s[0]).toBeGreaterThan(3 * HOUR_S);
    // About 0.1 A less nothing: 100 F from 0.7 to 1.2 V.
    const short_s = year.nights.shortBy_s[0]![0]!;
    expect(short_s).toBeGreaterThan(450);
    expect(short_s).toBeLessThan(600);
  });

  const needsDusk = { ...TEN_MA, restart_needs: 'dusk' } as const;

  it('waits for the next dusk where it needs one, however full the capacitor is', () => {
    const year = run({
      driver: needsDusk,
      start: { capacitor_V: 1 },
      schedule: { on: '13:00', hours: 20 },
      promise: { from: '13:00', hours: 20 },
      // Empties in the first quarter of an hour of darkness, then is filled from 14:00 on.
      light: lit(2, 5, 300),
      nights: { dusk_h: 6 },
    });
    // Stops 1000 s after 13:00, fills from 14:00, waits until dusk at 18:00.
    expect(year.nights.firstShort_s[0]).toBeCloseTo(HOUR_S + 1000, 2);
    expect(year.nights.dusk_V[0]).toBeGreaterThan(1.2);
    expect(year.columns.shining_s[3]).toBe(0);
    expect(year.columns.shining_s[5]).toBe(0);
    expect(year.columns.shining_s[6]).toBeCloseTo(HOUR_S, 6);
  });

  it('stays off after an emptying night until the next dusk, and shines then', () => {
    const year = run({
      driver: needsDusk,
      start: { capacitor_V: 1 },
      schedule: { on: 'dusk', until: 'dawn' },
      light: [...lit(13, 22, 300), ...new Array<number>(24).fill(0)],
    });
    expect(year.columns.shining_s[15]).toBe(0);
    expect(year.nights.dusk_V[1]).toBeGreaterThan(1.2);
    expect(shortCauses(year, 1)).not.toHaveProperty('still-empty');
    expect(year.columns.shining_s[24 + 7]).toBeCloseTo(HOUR_S, 6);
  });

  it('keeps a stopped driver stopped through the seam of a repeated year', () => {
    // Day and night the same dim light, whose reachable voltage lies between cut-off and restart: once stopped, always stopped.
    const year = run({
      driver: { kind: 'current', current_mA: 40, cutoff_V: 0.9, restart_V: 1.2 },
      schedule: { on: 'dusk', hours: 1 },
      promise: { hours: 1 },
      light: new Float64Array(8760).fill(5.5),
      start: 'cyclic',
    });
    expect(year.start).toBe('cyclic');
    expect(year.nights.dusk_V[0]).toBeGreaterThan(1);
    expect(year.nights.dusk_V[0]).toBeLessThan(1.19);
    expect(year.nights.shining_s[0]).toBe(0);
    expect(Object.keys(shortCauses(year))).toEqual(['locked-out']);
  });

  describe('by a cut-off that watches all day', () => {
    /** 1 mA by day takes 100 F from 0.95 V below the cut-off of 0.9 V in 5000 s, 0.1 mA from then on. */
    const thirsty = { ...TEN_MA, standby_uA: 1000, below_cutoff_uA: 100 } as const;
    /** Light in hours 3 and 4: of 12 W/m2 some 3 mA come in. */
    const dull = (light_W_m2: number, driver: object = {}) =>
      run({
        driver: { ...thirsty, ...driver },
        start: { capacitor_V: 0.95 },
        promise: { hours: 0.25 },
        light: lit(3, 5, light_W_m2),
      });

    it('stops by day at the instant the capacitor sinks below it, and draws what a stopped driver draws', () => {
      const { columns } = dull(0);
      expect(columns.standby_J[0]).toBeCloseTo((100 / 2) * (0.95 ** 2 - 0.914 ** 2), 6);
      const second_J = 50 * (0.914 ** 2 - 0.9 ** 2);
      // 2200 s below the cut-off, with a time constant of 100 F * 0.9 V / 0.1 mA.
      const after_V = 0.9 * Math.exp(-2200 / 900_000);
      expect(columns.capacitorEnd_V[1]).toBeCloseTo(after_V, 7);
      expect(columns.standby_J[1]).toBeCloseTo(second_J + 50 * (0.81 - after_V ** 2), 5);
    });

    it('leaves a lamp off that came back to less than the restart voltage, and says locked-out', () => {
      const year = dull(12);
      expect(year.nights.dusk_V[0]).toBeGreaterThan(0.95);
      expect(year.nights.dusk_V[0]).toBeLessThan(1.2);
      expect(year.nights.shining_s[0]).toBe(0);
      expect(shortCauses(year)).toEqual({ 'locked-out': expect.closeTo(HOUR_S / 4, 6) });
      expect(year.nights.firstShort_s[0]).toBeCloseTo(DUSK_S, 6);
    });

    it('lights it where the capacitor came back to the restart voltage, or never sank below the cut-off', () => {
      for (const year of [dull(30), dull(12, { standby_uA: 100 })]) {
        expect(year.nights.dusk_V[0]).toBeGreaterThan(0.95);
        expect(shortCauses(year)).toEqual({});
      }
    });

    it('does not ask by day where it watches while lit', () => {
      const year = dull(12, { cutoff_watches: 'while-lit' });
      expect(year.nights.dusk_V[0]).toBeLessThan(1.2);
      expect(shortCauses(year)).toEqual({});
      // And draws its standby, falling below the cut-off.
      expect(dull(0, { cutoff_watches: 'while-lit' }).columns.capacitorEnd_V[1]).toBeCloseTo(
        0.9 * Math.exp(-2200 / 90_000),
        5,
      );
    });

    it('says still-empty where the capacitor stands below the cut-off when it is to switch on', () => {
      expect(shortCauses(dull(0))).toEqual({ 'still-empty': expect.closeTo(HOUR_S / 4, 6) });
    });

    it('holds a driver that needs the dusk locked out till then', () => {
      const year = run({
        driver: { ...thirsty, restart_needs: 'dusk' },
        start: { capacitor_V: 0.95 },
        light: lit(3, 5, 60),
        schedule: { on: '17:00', hours: 4 },
        promise: { from: '17:00', hours: 3 },
      });
      expect(year.nights.dusk_V[0]).toBeGreaterThan(1.2);
      expect(shortCauses(year)).toEqual({ 'locked-out': expect.closeTo(HOUR_S, 6) });
      expect(year.columns.shining_s[6]).toBeCloseTo(HOUR_S, 6);
    });
  });

  it('draws below the cut-off what is stated, falling with the voltage, and never sinks below 0 V', () => {
    const lamp = makeLamp({
      cell: {
        raw: { photocurrent_A: 0.5, saturation_A: 2e-8, ideality: 1.4, series_ohm: 0.1, shunt_ohm: 50 },
        cells_in_series: 4,
      },
      diode: { switch_on_ohm: 0.01, reverse_leakage_uA: 0 },
      capacitor: { raw: { capacitance_F: 1 }, rated_V: 2.7 },
      driver: { ...TEN_MA, below_cutoff_uA: 500, standby_uA: 500 },
      led: RAW_LED,
      jar: { fixed_degC: 25 },
      schedule: { on: 'dusk', until: 'dawn' },
    });
    const light = dummyLight('2026-01-10T12:00:00Z', new Float64Array(240));
    const year = simulateYear(lamp, light, {
      timeZone: 'UTC',
      promise: PROMISE,
      start: { capacitor_V: 0.6 },
    });
    // dV/dt = -(500 uA / 0.9 V) V / C: a time constant of 1800 s.
    expect(year.columns.capacitorEnd_V[0]).toBeCloseTo(0.6 * Math.exp(-2), 5);
    expect(year.columns.capacitorEnd_V[5]).toBeCloseTo(0.6 * Math.exp(-12), 5);
    for (const v of year.columns.capacitorEnd_V) expect(v).toBeGreaterThanOrEqual(0);
    expect(year.chargeResidual).toBeLessThan(1e-9);
  });
});

describe('nights without an ordinary dusk', () => {
  it('promise nothing and switch nothing on by dusk in a white night', () => {
    for (const schedule of [
      { on: 'dusk', hours: 4 },
      { on: 'dusk', until: 'dawn' },
      { on: '22:00', until: 'dawn' },
      { on: '22:00' },
    ] as const) {
      const year = run({ schedule, nights: { white: [0], dusk_h: 12, dawn_h: 12 } });
      expect(year.nights.promised_s[0]).toBe(0);
      expect(year.nights.shining_s[0]).toBe(0);
      expect(year.nights.dusk_V[0]).toBeNaN();
    }
  });

  it('still shine by the clock in a white night', () => {
    const year = run({ schedule: { on: '22:00', hours: 2 }, nights: { white: [0], dusk_h: 12, dawn_h: 12 } });
    expect(year.nights.shining_s[0]).toBeCloseTo(2 * HOUR_S, 6);
    expect(year.nights.promised_s[0]).toBe(0);
  });

  it('promise from noon to noon where the sun never rises', () => {
    const year = run({
      nights: { dusk_h: 0, dawn_h: 24 },
      promise: { until: 'dawn', hours: undefined } as Partial<PromiseSection>,
      driver: { ...TEN_MA, current_mA: 1 },
    });
    expect(year.nights.promised_s[0]).toBeCloseTo(24 * HOUR_S, 6);
    expect(year.nights.lit_s[0]).toBeCloseTo(24 * HOUR_S, 6);
  });
});

describe('the hours of a year joined at its seam', () => {
  const lamp = makeLamp(libraryLamp());
  const light = dummyLight('2025-01-01T00:30:00Z', sineDay(9, 16, 250, 8760), 5);
  const year = simulateYear(lamp, light, { timeZone: 'UTC', promise: PROMISE, start: 'cyclic' });

  it('hold 365 whole nights', () => {
    expect(year.joined).toBe(true);
    expect(year.nights.count).toBe(365);
    for (const promised_s of year.nights.promised_s) expect(promised_s).toBeCloseTo(6 * HOUR_S, 3);
  });

  it('end where they began', () => {
    expect(Math.abs(year.periodicityError_V)).toBeLessThan(1e-5);
    expect(year.startCapacitor_V).toBeCloseTo(year.endCapacitor_V, 4);
  });

  it('state the capacitor voltage at the end of each hour, in the hour of the seam too', () => {
    // The seam lies half an hour into hour 11; light and lamp repeat each day.
    expect(year.columns.capacitorEnd_V[11]).toBeCloseTo(year.columns.capacitorEnd_V[11 + 24]!, 3);
  });
});

describe('a boost', () => {
  it('marks the first instant at which the capacitor reaches the LED and conducts straight through', () => {
    const driver = {
      kind: 'boost',
      inductance_uH: 800,
      frequency_kHz: 8,
      duty: 0.1,
      current_limit_mA: 30,
      cutoff_V: 0.9,
      restart_V: 1.1,
    } as const;
    const reached = run({ driver, start: { capacitor_V: 3.2 } });
    expect(reached.conductsThrough_s).toBe(0);
    const below = run({ driver, start: { capacitor_V: 2.4 } });
    expect(below.conductsThrough_s).toBeNaN();
  });

  it('draws its stated limit above (1 - duty) times the output, and counts that time', () => {
    // Output 3 V, duty 0.4: the limit of 10 mA holds above 1.8 V. From 2.4 V: 100 F * 0.6 V / 10 mA = 6000 s.
    const year = run({
      driver: {
        kind: 'boost',
        inductance_uH: 4000,
        frequency_kHz: 8,
        duty: 0.4,
        current_limit_mA: 10,
        cutoff_V: 0.9,
        restart_V: 1.1,
      },
    });
    expect(year.beyondFormula_s).toBeCloseTo(6000, 0);
  });
});

describe('a capacitor above its rated voltage', () => {
  it('is counted, to the instant at which it sinks below', () => {
    const year = run({
      start: { capacitor_V: 3 },
      driver: { ...TEN_MA },
      schedule: { on: 'dusk', hours: 6 },
    });
    // Six hours of waiting and 100 F * 0.3 V / 10 mA = 3000 s of light.
    expect(year.nights.aboveRated_s[0]).toBeCloseTo(6 * HOUR_S + 3000, 3);
    expect(year.columns.aboveRated_s.reduce((a, b) => a + b, 0)).toBeCloseTo(6 * HOUR_S + 3000, 3);
  });
});

describe('a capacitor far below the cut-off', () => {
  it('of constant power behind ohms stops at once, and only leaks', () => {
    const capacitor = { capacitance_F: 20, rated_V: 2.7, esr_mohm: 3200, delayed_share: 0, leakage_uA: 100 };
    const driver = { kind: 'power', power_mW: 3, cutoff_V: 0.5, restart_V: 0.65 } as const;
    const lamp = makeLamp(libraryLamp({ capacitor, driver }));
    const dark = dummyLight('2026-01-10T12:00:00Z', new Float64Array(24), -15, { dusk_h: 0, dawn_h: 24 });
    const { columns } = simulateYear(lamp, dark, {
      timeZone: 'UTC',
      promise: PROMISE,
      start: { capacitor_V: 0.02516 },
    });
    expect(columns.capacitorEnd_V[23]!).toBeLessThan(0.02516);
    expect(columns.capacitorEnd_V[23]!).toBeGreaterThan(0.02);
  });
});
