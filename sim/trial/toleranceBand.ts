import { square } from '../common/numeric.ts';
import type { LampParams } from '../lamp/params.ts';
import { PART_TOLERANCES } from './partTolerances.ts';

/** A lamp with parts off their stated values, and by what share readings that have no part are off. */
export interface BenchLamp {
  lamp: LampParams;
  light: number;
  driverCurrent: number;
  driverVoltage: number;
  resistor: number;
  /** Voltage that one of several capacitors in series takes, over that of each of the others. */
  partOfSeries: number;
}

interface Tolerance {
  words: string;
  low: number;
  high: number;
  apply: (to: BenchLamp, factor: number) => BenchLamp;
}

/** How far good parts and readings stray from what is stated; every one an assumption. */
const TOLERANCES: readonly Tolerance[] = [
  tolerance('light on the cell +-10 percent', 0.9, 1.1, (to, light) => ({ ...to, light })),
  ...PART_TOLERANCES.map(({ words, low, high, apply }) =>
    tolerance(words, low, high, (to, factor) => ({ ...to, lamp: apply(to.lamp, factor) })),
  ),
  tolerance('LED current and current drawn +-20 percent', 0.8, 1.2, (to, driverCurrent) => ({
    ...to,
    driverCurrent,
  })),
  tolerance(
    'voltages at which the driver stops and restarts +-5 percent',
    0.95,
    1.05,
    (to, driverVoltage) => ({
      ...to,
      driverVoltage,
    }),
  ),
  tolerance('load resistors +-5 percent', 0.95, 1.05, (to, resistor) => ({ ...to, resistor })),
  tolerance('capacitors in series +-10 percent among themselves', 0.9, 1.1, (to, partOfSeries) => ({
    ...to,
    partOfSeries,
  })),
];

/** What the bands rest on, in words. */
export const BAND_WORDS: readonly string[] = TOLERANCES.map(({ words }) => words);

/** A lamp as stated, read without error. */
export function statedAtBench(lamp: LampParams): BenchLamp {
  return { lamp, light: 1, driverCurrent: 1, driverVoltage: 1, resistor: 1, partOfSeries: 1 };
}

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
  const stated = statedAtBench(lamp);
  const expected = read(stated);
  let below = 0;
  let above = 0;
  for (const { low, high, apply } of TOLERANCES) {
    const moves = [low, high].map((factor) => read(apply(stated, factor)) - expected);
    below += square(Math.min(0, ...moves));
    above += square(Math.max(0, ...moves));
  }
  return { expected, low: Math.max(0, expected - Math.sqrt(below)), high: expected + Math.sqrt(above) };
}

function tolerance(words: string, low: number, high: number, apply: Tolerance['apply']): Tolerance {
  return { words, low, high, apply };
}
