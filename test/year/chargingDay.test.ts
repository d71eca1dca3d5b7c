import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { compensatedSum } from '../../sim/common/numeric.ts';
import type { LampParams } from '../../sim/lamp/params.ts';
import { simulateYear, type YearResult } from '../../sim/year/simulateYear.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp, sineDay } from './days.ts';
import { dummyLight } from './dummyLight.ts';
import { type Branches, ReferenceCircuit, referenceRun } from './referenceCircuit.ts';

const CAPACITOR = { capacitance_F: 500, rated_V: 2.7, esr_mohm: 5, leakage_uA: 1000 };

/** The library's parts, with a capacitor of the size that the errors below were set for. */
const lampOf = (changes: Partial<LampInput> = {}) => libraryLamp({ capacitor: CAPACITOR, ...changes });

interface Day {
  name: string;
  lamp: LampInput;
  light: number[];
  start_V: number;
  /** Error allowed at the default tolerance, as a share of the capacitor voltage; 1e-4 unless stated. */
  share?: number;
  /** The same at the tightest tolerance; 1e-5 unless stated: the reference's step of 20 s leaves some 1e-6. */
  tightShare?: number;
  /** Error allowed in the instant of a stop; 2 s unless stated. */
  stop_s?: number;
}

/** Two days from midnight. Dusk is at 20:00; the lamp shines from 20:00 to 04:00, in the first night too. */
const DAYS: Day[] = [
  { name: 'a bright day', lamp: lampOf(), light: sineDay(4, 20, 800, 48), start_V: 1 },
  { name: 'a dull December day', lamp: lampOf(), light: sineDay(8, 16, 60, 48), start_V: 1.3 },
  {
    name: 'a dull day that begins near the cut-off',
    lamp: lampOf(),
    light: sineDay(8, 16, 40, 48),
    start_V: 0.95,
  },
  {
    name: 'a bright day without delayed branches',
    lamp: lampOf({ capacitor: { ...CAPACITOR, delayed_share: 0 } }),
    light: sineDay(4, 20, 800, 48),
    start_V: 1,
  },
  {
    name: 'a small capacitor of 1 ohm',
    lamp: lampOf({ capacitor: { capacitance_F: 50, rated_V: 2.7, esr_mohm: 1000, leakage_uA: 100 } }),
    light: sineDay(4, 20, 400, 48),
    start_V: 1,
    // A capacitor of 50 F and 1 ohm: its delayed branches bend the path most in the hour of a stop.
    share: 5e-4,
    tightShare: 2e-5,
    stop_s: 4,
  },
  {
    name: 'a driver of constant power',
    lamp: lampOf({ driver: { kind: 'power', power_mW: 20 } }),
    light: sineDay(4, 20, 400, 48),
    start_V: 1,
  },
  {
    name: 'an ideal-diode switch',
    lamp: lampOf({ diode: { switch_on_ohm: 0.1 }, driver: { kind: 'power', power_mW: 15 } }),
    light: sineDay(4, 20, 600, 48),
    start_V: 1,
    // The switch opens and closes inside an hour, which the expansion at its middle does not see.
    share: 5e-4,
  },
  {
    name: 'a limiter that the capacitor passes',
    lamp: lampOf({ capacitor: { ...CAPACITOR, limiter: { at_V: 2, slope_ohm: 0.5 } } }),
    light: sineDay(4, 20, 800, 48),
    start_V: 1,
    // The reference passes the limiter's corner with steps of 20 s.
    tightShare: 1e-4,
  },
  {
    name: 'a stiff limiter on a capacitor with delayed branches',
    lamp: lampOf({ capacitor: { ...CAPACITOR, limiter: { at_V: 2 } } }),
    light: sineDay(4, 20, 800, 48),
    start_V: 1,
    tightShare: 1e-4,
  },
  {
    name: 'a driver by a coarse table',
    lamp: lampOf({
      driver: {
        kind: 'table',
        table: [
          { capacitor_V: 0.9, current_mA: 8 },
          { capacitor_V: 1.3, current_mA: 12 },
          { capacitor_V: 1.8, current_mA: 20 },
          { capacitor_V: 2.4, current_mA: 26 },
        ],
        cutoff_V: 0.9,
        restart_V: 1.1,
      },
    }),
    light: sineDay(4, 20, 800, 48),
    start_V: 1,
    // Corners of the table inside an hour: 50 microvolts at 16 microvolts a second.
    stop_s: 4,
  },
];

const AIR_DEGC = 8;
const PROMISE = { from: 'dusk', hours: 8, least_lumen: 0.01, tolerance_h: 0.25 } as const;
const shareAt = (time_s: number) => ((time_s / 3600 + 4) % 24 < 8 ? 1 : 0);

function simulate(lamp: LampParams, day: Day, tolerance_V?: number): YearResult {
  const light = dummyLight('2026-01-10T00:00:00Z', day.light, AIR_DEGC, { dusk_h: 8, dawn_h: 16 });
  return simulateYear(lamp, light, {
    timeZone: 'UTC',
    promise: PROMISE,
    start: { capacitor_V: day.start_V },
    ...(tolerance_V === undefined ? {} : { tolerance_V }),
  });
}

/** Worst error of the hourly capacitor voltage, as a share of it. */
function worstShare(year: YearResult, expected_V: readonly number[]): number {
  return Math.max(...expected_V.map((v, i) => Math.abs(year.columns.capacitorEnd_V[i]! / v - 1)));
}

/** Energy missing in every hour, all signs one, over the energy that came or went. */
function energyGap({ columns }: YearResult): number {
  const gap_J = columns.residual_J.reduce((sum, value) => sum + Math.abs(value), 0);
  return gap_J / (compensatedSum(columns.cell_J) + compensatedSum(columns.led_J));
}

describe.each(DAYS)('$name', (day) => {
  const lamp = makeLamp(day.lamp);
  const standard = simulate(lamp, day);
  const tight = simulate(lamp, day, 1e-8);
  const jar_degC = standard.columns.jar_degC;
  const start: Branches = [day.start_V, day.start_V, day.start_V];
  const reference = referenceRun(lamp, day.light, jar_degC, start, shareAt, 20);

  it('matches the fine-step integration of a second circuit, to 1e-4 of the capacitor voltage where its curves are smooth', () => {
    expect(worstShare(standard, reference.hourEnd_V)).toBeLessThan(day.share ?? 1e-4);
  });

  it('comes nearer as the tolerance is tightened', () => {
    const off = [standard, simulate(lamp, day, 1e-6), tight].map((year) =>
      worstShare(year, reference.hourEnd_V),
    );
    expect(off[2]!).toBeLessThan(day.tightShare ?? 1e-5);
    expect(off[2]!).toBeLessThan(Math.max(off[1]!, day.tightShare ?? 0));
    expect(off[1]!).toBeLessThan(1.1 * off[0]!);
    expect(energyGap(tight)).toBeLessThan(2e-6);
    expect(energyGap(tight)).toBeLessThan(energyGap(standard));
  });

  it('closes charge to 1e-9 and energy to 1e-4, hour by hour', () => {
    expect(standard.chargeResidual).toBeLessThan(1e-9);
    expect(energyGap(standard)).toBeLessThan(1e-4);
  });

  it('stops at the cut-off within 2 s of the second circuit', () => {
    const stops = Array.from(standard.nights.firstShort_s).filter((s) => !Number.isNaN(s));
    expect(stops.length).toBe(reference.stops_s.length);
    stops.forEach((at_s, i) => {
      expect(Math.abs(at_s - reference.stops_s[i]!)).toBeLessThan(day.stop_s ?? 2);
    });
  });
});

describe('a general-purpose ODE library', () => {
  it('agrees over a full day of charging with delayed branches to 1e-4 of the capacitor voltage', () => {
    for (const day of DAYS.slice(0, 2)) {
      const lamp = makeLamp({ ...day.lamp, schedule: { on: '12:00', hours: 1e-6 } });
      const year = simulate(lamp, day);
      const expected_V = byLibrary(lamp, day.light, year.columns.jar_degC, day.start_V);
      expect(worstShare(year, expected_V)).toBeLessThan(1e-4);
    }
  });
});

describe('the restart', () => {
  it('comes within 2 s of the second circuit', () => {
    // The lamp is on all afternoon, the capacitor below its restart.
    const day: Day = {
      name: 'restart',
      lamp: lampOf({ schedule: { on: '12:00', hours: 8 } }),
      light: sineDay(8, 17, 120, 24),
      start_V: 0.7,
    };
    const lamp = makeLamp(day.lamp);
    const light = dummyLight('2026-01-10T12:00:00Z', day.light.slice(12), AIR_DEGC);
    const year = simulateYear(lamp, light, {
      timeZone: 'UTC',
      promise: { from: '12:00', hours: 8, least_lumen: 0.01, tolerance_h: 0.25 },
      start: { capacitor_V: 0.85 },
    });
    const circuitStart: Branches = [0.85, 0.85, 0.85];
    // The circuit starts unstopped and lit below its cut-off: it stops in its first step.
    const reference = referenceRun(
      lamp,
      light.planeOfArray_W_m2,
      year.columns.jar_degC,
      circuitStart,
      () => 1,
      10,
    );
    expect(reference.restarts_s.length).toBeGreaterThan(0);
    const restart_s = year.nights.shortBy_s[0]![0]!;
    expect(Math.abs(restart_s - reference.restarts_s[0]!)).toBeLessThan(2);
  });
});

describe('a long night without light', () => {
  it('ends within 2 s of the second circuit, with delayed branches and a boost', () => {
    for (const start_V of [1.6, 2, 2.2]) {
      const lamp = makeLamp(lampOf({ schedule: { on: 'dusk', until: 'dawn' } }));
      const light = dummyLight('2026-01-10T12:00:00Z', new Float64Array(24), AIR_DEGC, {
        dusk_h: 0,
        dawn_h: 24,
      });
      const year = simulateYear(lamp, light, {
        timeZone: 'UTC',
        promise: { from: 'dusk', until: 'dawn', least_lumen: 0.01, tolerance_h: 0.25 },
        start: { capacitor_V: start_V },
      });
      const start: Branches = [start_V, start_V, start_V];
      const reference = referenceRun(
        lamp,
        light.planeOfArray_W_m2,
        year.columns.jar_degC,
        start,
        () => 1,
        30,
      );
      expect(Math.abs(year.nights.firstShort_s[0]! - reference.stops_s[0]!)).toBeLessThan(2);
    }
  });
});

interface OdexSolver {
  relativeTolerance: number;
  absoluteTolerance: number;
  maxSteps: number;
  solve(
    f: (x: number, y: number[]) => number[],
    from: number,
    y: number[],
    to: number,
  ): { y: number[]; outcome: number };
}

/** Hourly capacitor voltages by extrapolation (odex), started anew each hour; no LED. */
function byLibrary(
  lamp: LampParams,
  light_W_m2: ArrayLike<number>,
  jar_degC: ArrayLike<number>,
  start_V: number,
): number[] {
  const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (n: number) => OdexSolver };
  const circuit = new ReferenceCircuit(lamp);
  let y = [start_V, start_V, start_V];
  const hourEnd_V: number[] = [];
  for (let hour = 0; hour < light_W_m2.length; hour++) {
    circuit.conditions(light_W_m2[hour]!, jar_degC[hour]!);
    const solver = new Solver(3);
    solver.relativeTolerance = 1e-9;
    solver.absoluteTolerance = 1e-9;
    const { y: after, outcome } = solver.solve((_, state) => circuit.rates(state as Branches), 0, y, 3600);
    if (outcome !== 0) throw new Error('the library did not converge');
    y = after;
    hourEnd_V.push(y[0]!);
  }
  return hourEnd_V;
}
