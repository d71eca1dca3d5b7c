import { describe, expect, it } from 'vitest';
import type { PromiseSection } from '../../sim/lamp/schedule/schema.ts';
import type { NightRow } from '../../sim/night/nightLedger.ts';
import { nightLedger } from '../../sim/night/nightLedger.ts';
import { simulateYear, type YearStart } from '../../sim/year/simulateYear.ts';
import { idealCapacitor, idealLamp, type LampInput } from '../lamp/makeLamp.ts';
import { dummyLight } from '../year/dummyLight.ts';

const SITE = { latitude_deg: 54, longitude_deg: 10, elevation_m: 0, timeZone: 'UTC', albedo: 0.2 };
const PROMISE: PromiseSection = { from: 'dusk', hours: 6, least_lumen: 0.01, tolerance_h: 0.25 };

interface Given {
  driver?: LampInput['driver'];
  from?: string;
  light?: ArrayLike<number>;
  start?: YearStart;
  schedule?: LampInput['schedule'];
  promise?: Partial<PromiseSection>;
  white?: number[];
  timeZone?: string;
  filled?: number[];
}

/** The ledger of a lamp of 100 F that draws 10 mA, with a cut-off of 0.9 V. */
function ledger(given: Given): NightRow[] {
  const lamp = idealLamp(
    given.driver ?? { kind: 'current', current_mA: 10, cutoff_V: 0.9, restart_V: 1.2 },
    idealCapacitor(100),
    given.schedule ?? { on: 'dusk', hours: 6 },
  );
  const light = dummyLight(given.from ?? '2026-01-10T12:00:00Z', given.light ?? new Float64Array(48), 25, {
    white: given.white ?? [],
  });
  for (const hour of given.filled ?? []) light.mark[hour] = 3;
  const promise = { ...PROMISE, ...given.promise };
  const timeZone = given.timeZone ?? 'UTC';
  const year = simulateYear(lamp, light, { timeZone, promise, start: given.start ?? { capacitor_V: 2.4 } });
  return nightLedger(
    year,
    light,
    { ...SITE, timeZone },
    { capacitor: lamp.capacitor, cutoff_V: 0.9, tolerance_h: promise.tolerance_h },
  );
}

describe('a row of the night ledger', () => {
  it('says when the capacitor ran empty and how long the night was dark', () => {
    const [first, second] = ledger({});
    expect(first).toMatchObject({
      night: '2026-01-10',
      winter: '2025/26',
      complete: true,
      outcome: 'failed',
    });
    expect(first!.cause).toBe('ran-empty');
    // 15000 s after dusk at 18:00.
    expect(new Date(first!.firstShort_ms).toISOString().slice(0, 19)).toBe('2026-01-10T22:10:00');
    expect(first!.short_h).toBeCloseTo(6 - 15_000 / 3600, 6);
    expect(first!.lit_h + first!.short_h).toBe(first!.promised_h);
    expect(first!.capacitorDusk_V).toBeCloseTo(2.4, 9);
    expect(first!.reserveDawn_J).toBeCloseTo(0, 4);
    expect(second!.cause).toBe('still-empty');
    expect(new Date(second!.firstShort_ms).toISOString()).toBe('2026-01-11T18:00:00.000Z');
  });

  it('states the energy above the cut-off at dawn', () => {
    const [first] = ledger({ schedule: { on: 'dusk', hours: 1 }, promise: { hours: 1 } });
    const dawn_V = 2.4 - 0.36;
    expect(first!.outcome).toBe('kept');
    expect(first!.cause).toBe('none');
    expect(first!.firstShort_ms).toBeNaN();
    expect(first!.reserveDawn_J).toBeCloseTo(50 * (dawn_V ** 2 - 0.81), 4);
    expect(first!.capacitorDawn_V).toBeCloseTo(dawn_V, 6);
  });

  it('forgives short hours up to the tolerance, and no more', () => {
    const short = (hours: number) => ledger({ schedule: { on: 'dusk', hours }, promise: { hours: 2 } })[0]!;
    expect(short(1.75)).toMatchObject({ outcome: 'kept', cause: 'not-scheduled' });
    expect(short(1.75).short_h).toBeCloseTo(0.25, 6);
    expect(short(1.74).outcome).toBe('failed');
  });

  it('names what most of the short time came from', () => {
    // An hour before the lamp comes on, then four hours and ten minutes of light, then dark.
    const [first] = ledger({ schedule: { on: '19:00', hours: 10 }, promise: { hours: 8 } });
    expect(first!.cause).toBe('ran-empty');
    expect(new Date(first!.firstShort_ms).toISOString().slice(11, 16)).toBe('18:00');
    const [late] = ledger({ schedule: { on: '19:00', hours: 10 }, promise: { hours: 5.5 } });
    expect(late!.cause).toBe('switched-on-late');
  });

  it('tells dim time, on below the promised light, from time out', () => {
    // 8 mS on 100 F: it fades to half of its light in 4332 s (100 F / 8 mS times ln of the root of 2), and stands at its cut-off after 10136 s.
    const driver = {
      kind: 'conductance',
      conductance_mS: 8,
      efficiency: 0.9,
      cutoff_V: 1.0668,
      restart_V: 1.2,
    } as const;
    const least_lumen = (0.9 * 0.008 * 2.4 ** 2 * 150) / 2;
    const night = (hours: number) => ledger({ driver, promise: { hours, least_lumen } })[0]!;
    const dimOnly = night(2.5);
    expect(dimOnly).toMatchObject({ outcome: 'failed', cause: 'too-dim', wentOut: false, out_h: 0 });
    expect(dimOnly.dim_h).toBeCloseTo(2.5 - 4332.17 / 3600, 2);
    // Out for less than the tolerance: what it failed by is the dim time.
    const barelyOut = night(3);
    expect(barelyOut).toMatchObject({ outcome: 'failed', cause: 'too-dim', wentOut: false });
    expect(barelyOut.out_h).toBeCloseTo(3 - 10_136 / 3600, 2);
    // Out for more, though dim for longer.
    const out = night(3.5);
    expect(out).toMatchObject({ outcome: 'failed', cause: 'ran-empty', wentOut: true });
    expect(out.dim_h).toBeGreaterThan(out.out_h);
    for (const row of [dimOnly, barelyOut, out]) expect(row.dim_h + row.out_h).toBeCloseTo(row.short_h, 9);
  });

  it('promises nothing in a white night, and has no dusk', () => {
    const [white, next] = ledger({ white: [0] });
    expect(white).toMatchObject({ outcome: 'nothing-promised', cause: 'none', promised_h: 0, short_h: 0 });
    expect(white!.dusk_ms).toBeNaN();
    expect(white!.reserveDawn_J).toBeNaN();
    expect(next!.outcome).not.toBe('nothing-promised');
  });

  it('sums the light of the civil day of its evening', () => {
    const light = Array.from({ length: 72 }, (_, i) => i);
    const rows = ledger({ from: '2026-01-10T00:00:00Z', light, start: { capacitor_V: 1 } });
    // The first night is that of the 9th, whose civil day is not in the record.
    expect(rows.map((row) => row.night)).toEqual(['2026-01-09', '2026-01-10', '2026-01-11', '2026-01-12']);
    expect(rows[0]!.complete).toBe(false);
    expect(rows[3]!.complete).toBe(false);
    const day = (from: number) => light.slice(from, from + 24).reduce((a, b) => a + b, 0);
    expect(rows[1]!.lightOnCell_Wh_m2).toBe(day(0));
    expect(rows[2]!.lightOnCell_Wh_m2).toBe(day(24));
    const berlin = ledger({
      from: '2026-01-10T00:00:00Z',
      light,
      start: { capacitor_V: 1 },
      timeZone: 'Europe/Berlin',
    });
    expect(berlin[2]!.lightOnCell_Wh_m2).toBe(day(23));
  });

  it('counts filled hours from noon to noon', () => {
    const rows = ledger({ filled: [0, 5, 23, 24] });
    expect(rows.map((row) => row.filledWeather_h)).toEqual([3, 1]);
  });
});

describe('the ledger of a joined year', () => {
  const light = new Float64Array(8760).fill(0);
  light.fill(200, 8750, 8756);
  const rows = ledger({ from: '2025-01-01T00:00:00Z', light, start: 'cyclic' });

  it('has 365 complete nights of one winter', () => {
    expect(rows.length).toBe(365);
    expect(new Set(rows.map((row) => row.winter))).toEqual(new Set(['2025 joined']));
    expect(rows.every((row) => row.complete)).toBe(true);
    expect(rows[0]!.night).toBe('2025-01-01');
    expect(rows[364]!.night).toBe('2025-12-31');
  });

  it('sums every hour of the record into one civil day', () => {
    const sum = rows.reduce((total, row) => total + row.lightOnCell_Wh_m2, 0);
    expect(sum).toBeCloseTo(6 * 200, 9);
  });

  it('keeps lit, dark and promised together, every night', () => {
    for (const row of rows) expect(row.lit_h + row.short_h).toBeCloseTo(row.promised_h, 9);
    expect(rows[364]!.outcome).toBe('failed');
    expect(rows[364]!.lit_h).toBeGreaterThan(0);
  });
});
