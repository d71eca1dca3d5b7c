import { describe, expect, it } from 'vitest';
import type { PromiseSection } from '../../sim/lamp/schedule/schema.ts';
import { nightLedger } from '../../sim/night/nightLedger.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { winterStatistics } from '../../sim/statistics/winterStatistics.ts';
import { nightCalendar } from '../../sim/sun/NightCalendar.ts';
import { simulateYear, type YearStart } from '../../sim/year/simulateYear.ts';
import { YEAR_COLUMNS } from '../../sim/year/YearColumns.ts';
import { idealCapacitor, idealLamp, type LampInput, makeLamp, RAW_CELL, RAW_LED } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from './days.ts';
import { dummyLight } from './dummyLight.ts';

const PROMISE: PromiseSection = { from: 'dusk', hours: 6, least_lumen: 0.5, tolerance_h: 0.25 };
const SITE = { latitude_deg: 54, longitude_deg: 10, elevation_m: 0, timeZone: 'Europe/Berlin', albedo: 0.2 };

/** Invented light under the true calendar of a latitude. */
function lightAt(latitude_deg: number, start: string, hours: number, peak_W_m2: number): SpotLight {
  const light = dummyLight(start, sineDay(8, 16, peak_W_m2, hours), 5);
  const nights = nightCalendar(light.start_ms, hours, { ...SITE, latitude_deg });
  return { ...light, nights, dusk_ms: nights.dusk_ms, dawn_ms: nights.dawn_ms };
}

function simulate(light: SpotLight, start: YearStart, changes: Partial<LampInput> = {}, promise = PROMISE) {
  const lamp = makeLamp(libraryLamp(changes));
  const year = simulateYear(lamp, light, { timeZone: SITE.timeZone, promise, start });
  return { lamp, year };
}

function ledgerAt(latitude_deg: number, light: SpotLight, start: YearStart) {
  const { lamp, year } = simulate(light, start);
  const terms = { capacitor: lamp.capacitor, cutoff_V: lamp.driver.cutoff_V, tolerance_h: 0.25 };
  return { year, rows: nightLedger(year, light, { ...SITE, latitude_deg }, terms) };
}

describe('a year at any latitude', () => {
  it.each([-80, -54, 0, 54, 66, 70, 80])('has whole nights and no NaN at %i degrees', (latitude_deg) => {
    const light = lightAt(latitude_deg, '2025-01-01T00:00:00Z', 8760, 200);
    const { year, rows } = ledgerAt(latitude_deg, light, 'cyclic');
    expect(rows).toHaveLength(365);
    for (const name of YEAR_COLUMNS) expect(year.columns[name].some(Number.isNaN), name).toBe(false);
    const white = rows.filter((row) => row.outcome === 'nothing-promised');
    expect(white.length > 0).toBe(Math.abs(latitude_deg) >= 61);
    for (const row of rows) {
      expect(row.lit_h + row.short_h).toBeCloseTo(row.promised_h, 9);
      if (row.outcome === 'nothing-promised') expect(row.dusk_ms).toBeNaN();
      // Six hours, or the whole of a shorter night.
      else expect(row.promised_h).toBeCloseTo(Math.min(6, (row.dawn_ms - row.dusk_ms) / 3_600_000), 3);
    }
    const [winter] = winterStatistics(rows, latitude_deg);
    expect(winter!.nights + white.length).toBe(365);
  });

  it('promises the whole day in the polar night, where it is promised until dawn', () => {
    const light = lightAt(80, '2025-01-01T00:00:00Z', 240, 0);
    const year = simulateYear(makeLamp(libraryLamp()), light, {
      timeZone: 'UTC',
      promise: { from: 'dusk', until: 'dawn', least_lumen: 0.5, tolerance_h: 0.25 },
      start: { capacitor_V: 2 },
    });
    for (let n = 1; n < year.nights.count - 1; n++)
      expect(year.nights.promised_s[n]! / 3600).toBeCloseTo(24, 1);
  });
});

describe('the length of a record', () => {
  const winter = lightAt(54, '2025-10-01T00:00:00Z', 182 * 24, 40);

  it('may be a winter, no cycle but led into by its own first weeks', () => {
    const { year, rows } = ledgerAt(54, winter, 'cyclic');
    expect(year).toMatchObject({
      start: 'lead-in',
      joined: false,
      passes: 1,
      periodicityError_V: Number.NaN,
    });
    expect(simulate(winter, 'lead-in').year.startCapacitor_V).toBe(year.startCapacitor_V);
    expect(rows.filter((row) => row.complete)).toHaveLength(181);
    expect(winterStatistics(rows, 54)).toMatchObject([{ winter: '2025/26', extent: 'dark-months' }]);
  });

  it('leaves a lead-in where three weeks of the record, run from empty, end', () => {
    const weeks = lightAt(54, '2025-10-01T00:00:00Z', 21 * 24, 40);
    const { lamp, year } = simulate(winter, 'lead-in');
    const alone = simulate(weeks, { capacitor_V: lamp.driver.cutoff_V });
    expect(year.startCapacitor_V).toBeCloseTo(alone.year.endCapacitor_V, 3);
    // A record of fewer days is gone through whole.
    const days = lightAt(54, '2025-10-01T00:00:00Z', 3 * 24, 40);
    const few = simulate(days, 'lead-in').year;
    expect(few.startCapacitor_V).toBeCloseTo(
      simulate(days, { capacitor_V: lamp.driver.cutoff_V }).year.endCapacitor_V,
      3,
    );
  });

  it('may be a leap year, joined like any other', () => {
    const light = lightAt(54, '2024-01-01T00:00:00Z', 8784, 200);
    const { year, rows } = ledgerAt(54, light, 'cyclic');
    expect(year.joined).toBe(true);
    expect(rows).toHaveLength(366);
    expect(new Set(rows.map((row) => row.night)).size).toBe(366);
  });

  it('may be several years, repeated until the end meets the start', () => {
    const light = lightAt(54, '2021-07-01T00:00:00Z', 2 * 8760, 40);
    const { year, rows } = ledgerAt(54, light, 'cyclic');
    expect(year.joined).toBe(false);
    expect(Math.abs(year.periodicityError_V)).toBeLessThan(1e-4);
    expect(winterStatistics(rows, 54).map((w) => [w.winter, w.complete])).toEqual([
      ['2020/21', false],
      ['2021/22', true],
      // Its last night ends on the noon after the record.
      ['2022/23', true],
    ]);
  });

  it('may be a year from a given start, which is then no whole winter', () => {
    const light = lightAt(54, '2025-01-01T00:00:00Z', 8760, 200);
    const { year, rows } = ledgerAt(54, light, { capacitor_V: 1.5 });
    expect(year.passes).toBe(1);
    expect(year.joined).toBe(false);
    expect(year.startCapacitor_V).toBe(1.5);
    expect(winterStatistics(rows, 54).every((winter) => !winter.complete)).toBe(true);
  });

  it('may be a week, begun from an empty capacitor', () => {
    const light = lightAt(54, '2025-06-01T00:00:00Z', 168, 300);
    const { year } = simulate(light, { capacitor_V: 0 });
    expect(year.endCapacitor_V).toBeGreaterThan(1);
    for (const v of year.columns.capacitorEnd_V) expect(v).toBeGreaterThanOrEqual(0);
  });
});

describe('a repeated year', () => {
  it('ends with the capacitor as it began, to 10 uV', () => {
    for (const light_W_m2 of [20, 45, 200]) {
      const { year } = simulate(lightAt(54, '2025-01-01T00:00:00Z', 8760, light_W_m2), 'cyclic');
      expect(Math.abs(year.endCapacitor_V - year.startCapacitor_V)).toBeLessThanOrEqual(1e-5);
    }
  });

  it('goes round again where the last weeks do not settle the capacitor', () => {
    // A lamp that hardly draws in a jar that hardly sees light fills over many weeks.
    const light = lightAt(54, '2025-01-01T00:00:00Z', 8760, 3);
    const lamp = makeLamp({
      ...libraryLamp(),
      driver: { kind: 'power', power_mW: 0.05, standby_uA: 0, below_cutoff_uA: 0 },
    });
    const year = simulateYear(lamp, light, { timeZone: SITE.timeZone, promise: PROMISE, start: 'cyclic' });
    expect(year.passes).toBeGreaterThan(1);
    expect(Math.abs(year.periodicityError_V)).toBeLessThanOrEqual(1e-5);
  });
});

describe('parts that draw from the capacitor', () => {
  const dark = dummyLight('2026-01-10T12:00:00Z', new Float64Array(24));
  const day = (capacitor: LampInput['capacitor'], driver: object = {}) => {
    const lamp = idealLamp(
      { kind: 'current', current_mA: 1, cutoff_V: 0.5, standby_uA: 0, ...driver },
      capacitor,
      { on: '11:59', hours: 1e-6 },
    );
    return simulateYear(lamp, dark, { timeZone: 'UTC', promise: PROMISE, start: { capacitor_V: 2.4 } });
  };

  it('balance by a resistance: the voltage falls as an exponential', () => {
    const year = day({ raw: { capacitance_F: 100 }, rated_V: 2.7, balancing_kohm: 1 });
    expect(year.endCapacitor_V).toBeCloseTo(2.4 * Math.exp(-86_400 / 100_000), 6);
    const spent_J = year.columns.limiter_J.reduce((a, b) => a + b, 0);
    expect(spent_J).toBeCloseTo(50 * (2.4 ** 2 - year.endCapacitor_V ** 2), 3);
  });

  it('stand by at a constant current', () => {
    const year = day(idealCapacitor(100), { standby_uA: 100 });
    expect(year.endCapacitor_V).toBeCloseTo(2.4 - (1e-4 * 86_400) / 100, 6);
  });

  it('limit: the capacitor settles where the limiter takes all that the cell gives', () => {
    const lamp = makeLamp({
      cell: { ...RAW_CELL, raw: { ...RAW_CELL.raw, saturation_A: 1e-12, shunt_ohm: 1e6 } },
      diode: { switch_on_ohm: 0.01 },
      capacitor: { raw: { capacitance_F: 100 }, rated_V: 2.7, limiter: { at_V: 2.2, slope_ohm: 0.5 } },
      driver: { kind: 'power', power_mW: 10, standby_uA: 0 },
      led: RAW_LED,
      jar: { fixed_degC: 25 },
      schedule: { on: 'dusk', hours: 1 },
    });
    const bright = dummyLight('2026-01-10T00:00:00Z', new Float64Array(12).fill(400));
    const year = simulateYear(lamp, bright, { timeZone: 'UTC', promise: PROMISE, start: { capacitor_V: 1 } });
    // 0.2 A through 0.5 ohm above 2.2 V; the cell of 3.9 V gives all its current there.
    expect(year.endCapacitor_V).toBeCloseTo(2.3, 4);
    expect(year.columns.limiter_J[11]).toBeCloseTo(2.3 * 0.2 * 3600, 0);
  });
});
