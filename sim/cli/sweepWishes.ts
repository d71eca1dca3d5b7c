import type { SweepWish } from '../ageing/lifeSweep.ts';
import type { Arguments } from './Command.ts';
import { numberWithin } from './numberWithin.ts';
import { usageMistake } from './usageProblem.ts';

/** Options that sweep a value: its unit, what it may be, and the steps of a range. */
const SWEEPS = {
  limit: { unit: 'V', from: 0.3, to: 30, step: 0.1 },
  'led-current': { unit: 'number', from: 0.05, to: 20, step: 0.1 },
  capacitors: { unit: 'number', from: 1, to: 100, step: 1 },
} as const;

const MOST_VALUES = 60;

/**
 * The values that the command line asks to be tried.
 *
 * in: args
 * throws: USAGE for what is no value or range, or holds more values than are tried
 */
export function sweepWishes(args: Arguments): SweepWish[] {
  return Object.keys(SWEEPS).flatMap((key) => {
    const what = key as keyof typeof SWEEPS;
    const text = args.text(what);
    return text === undefined ? [] : [{ what, values: valuesOf(what, text) }];
  });
}

/** A range 'A..B', or 'A..B by STEP', or a single value. */
function valuesOf(what: keyof typeof SWEEPS, text: string): number[] {
  const { unit, from, to, step } = SWEEPS[what];
  const typed = `--${what} ${text}`;
  refuseOtherDots(text, typed, what);
  const [, first, last, by] = /^\s*(.+?)\s*\.\.\s*(.+?)(?:\s+by\s+(.+?))?\s*$/.exec(text) ?? [
    undefined,
    text,
    text,
  ];
  const number = (said: string) => numberWithin(said, typed, from, to, unit);
  const [low, high] = [number(first!), number(last!)];
  const each = by === undefined ? step : numberWithin(by, typed, what === 'capacitors' ? 1 : 1e-3, to, unit);
  if (high < low) throw usageMistake(typed, 'a range from less to more', `--${what} ${high}..${low}`);
  if (what === 'capacitors' && ![low, high, each].every(Number.isInteger))
    throw usageMistake(
      typed,
      'whole numbers of capacitors',
      `--${what} ${Math.ceil(low)}..${Math.ceil(high)}`,
    );
  const count = Math.floor((high - low) / each + 1e-6) + 1;
  if (count > MOST_VALUES)
    throw usageMistake(
      typed,
      `${MOST_VALUES} values at most`,
      `--${what} "${low}..${high} by ${Number(((high - low) / 10).toPrecision(1))}"`,
    );
  return Array.from({ length: count }, (_, k) => Number((low + k * each).toFixed(6)));
}

/** A range as it is written elsewhere: '1.8-2.7', '1.8 to 2.7 V'. */
function refuseOtherDots(text: string, typed: string, what: string): void {
  const [, first, last = ''] =
    /^\s*(\d[\d.,]*(?:\s*V)?)\s*(?:-|\u2013|\bto\b)\s*(\d.*?)\s*$/.exec(text) ?? [];
  if (first === undefined || text.includes('..')) return;
  const range = `${first}..${last}`;
  throw usageMistake(
    typed,
    'a number, or a range with two points',
    `--${what} ${range.includes(' ') ? `"${range}"` : range}`,
  );
}
