import type { DelayedBranch } from '../lamp/capacitor/params.ts';
import type { LampParams } from '../lamp/params.ts';

/** A lamp with parts off their stated values, and by what share readings that have no part are off. */
export interface BenchLamp {
  lamp: LampParams;
  light: number;
  driverCurrent: number;
  driverVoltage: number;
  resistor: number;
}

interface Tolerance {
  words: string;
  low: number;
  high: number;
  apply: (to: BenchLamp, factor: number) => BenchLamp;
}

/** How far good parts stray from what is stated; every one an assumption. */
const TOLERANCES: readonly Tolerance[] = [
  {
    words: 'light on the cell +-10 percent',
    low: 0.9,
    high: 1.1,
    apply: (to, factor) => ({ ...to, light: factor }),
  },
  {
    words: 'cell current +-10 percent',
    low: 0.9,
    high: 1.1,
    apply: (to, factor) =>
      withCell(to, {
        photocurrent_A: to.lamp.cell.photocurrent_A * factor,
        shunt_ohm: to.lamp.cell.shunt_ohm / factor,
      }),
  },
  {
    words: 'cell voltage +-3 percent',
    low: 0.97,
    high: 1.03,
    apply: (to, factor) => withCell(to, { openCircuit_V: to.lamp.cell.openCircuit_V * factor }),
  },
  {
    words: 'diode drop +-10 percent',
    low: 0.9,
    high: 1.1,
    apply: (to, factor) => {
      const { diode } = to.lamp;
      const off = {
        ideality: diode.ideality * factor,
        series_ohm: diode.series_ohm * factor,
        on_ohm: diode.on_ohm * factor,
      };
      return { ...to, lamp: { ...to.lamp, diode: { ...diode, ...off } } };
    },
  },
  {
    words: 'capacitance -10 to +30 percent',
    low: 0.9,
    high: 1.3,
    apply: (to, factor) => {
      const { capacitor } = to.lamp;
      return withCapacitor(to, {
        capacitance_F: capacitor.capacitance_F * factor,
        rise_F_V: capacitor.rise_F_V * factor,
        delayed: [moreOf(capacitor.delayed[0], factor), moreOf(capacitor.delayed[1], factor)],
      });
    },
  },
  {
    words: 'delayed share of the charge from half to one and a half times what is stated',
    low: 0.5,
    high: 1.5,
    apply: (to, factor) => {
      const [quick, delayed] = to.lamp.capacitor.delayed;
      return withCapacitor(to, { delayed: [moreOf(quick, factor), moreOf(delayed, factor)] });
    },
  },
  {
    words: 'leakage and standby from 0.3 to 2 times what is stated',
    low: 0.3,
    high: 2,
    apply: (to, factor) => {
      const { driver, capacitor } = to.lamp;
      const off = {
        standby_A: driver.standby_A * factor,
        belowCutoff_A: driver.belowCutoff_A * factor,
      };
      return withCapacitor(
        { ...to, lamp: { ...to.lamp, driver: { ...driver, ...off } } },
        {
          leakage_A: capacitor.leakage_A * factor,
        },
      );
    },
  },
  {
    words: 'LED current and current drawn +-20 percent',
    low: 0.8,
    high: 1.2,
    apply: (to, factor) => ({ ...to, driverCurrent: factor }),
  },
  {
    words: 'voltages at which the driver stops and restarts +-5 percent',
    low: 0.95,
    high: 1.05,
    apply: (to, factor) => ({ ...to, driverVoltage: factor }),
  },
  {
    words: 'load resistors +-5 percent',
    low: 0.95,
    high: 1.05,
    apply: (to, factor) => ({ ...to, resistor: factor }),
  },
];

/** What the bands rest on, in words. */
export const BAND_WORDS: readonly string[] = TOLERANCES.map(({ words }) => words);

/**
 * What a lamp of good parts shows, and how far it may stray, in the unit of the reading.
 *
 * Each tolerance alone moves the reading; what moves it the same way is added as the root of the squares.
 *
 * in: lamp; read, the reading of such a lamp
 * out: the reading as stated, and its bounds
 * source: JCGM100 (combined by squares)
 */
export function toleranceBand(
  lamp: LampParams,
  read: (of: BenchLamp) => number,
): { expected: number; low: number; high: number } {
  const stated: BenchLamp = { lamp, light: 1, driverCurrent: 1, driverVoltage: 1, resistor: 1 };
  const expected = read(stated);
  let below = 0;
  let above = 0;
  for (const { low, high, apply } of TOLERANCES) {
    const moves = [low, high].map((factor) => read(apply(stated, factor)) - expected);
    below += Math.min(0, ...moves) ** 2;
    above += Math.max(0, ...moves) ** 2;
  }
  return { expected, low: Math.max(0, expected - Math.sqrt(below)), high: expected + Math.sqrt(above) };
}

function withCell(to: BenchLamp, changes: Partial<LampParams['cell']>): BenchLamp {
  return { ...to, lamp: { ...to.lamp, cell: { ...to.lamp.cell, ...changes } } };
}

function withCapacitor(to: BenchLamp, changes: Partial<LampParams['capacitor']>): BenchLamp {
  return { ...to, lamp: { ...to.lamp, capacitor: { ...to.lamp.capacitor, ...changes } } };
}

/** More of a branch with the same time constant. */
function moreOf({ resistance_ohm, capacitance_F }: DelayedBranch, factor: number): DelayedBranch {
  return { resistance_ohm: resistance_ohm / factor, capacitance_F: capacitance_F * factor };
}
