import { writtenQuantity } from '../scenario/writtenQuantity.ts';
import type { Arguments } from './Command.ts';
import type { OptionName } from './options.ts';
import { usageMistake } from './usageProblem.ts';

/** Words for numbers without a unit. */
const PLAIN = ['number', 'share'];

/**
 * A number of the command line, alone or with a unit of its own.
 *
 * in: text; typed, as messages show it; from and to, the least and the most; unit, that of a number alone
 * out: the number, in the unit
 * throws: USAGE where it is none, or not within
 */
export function numberWithin(text: string, typed: string, from: number, to: number, unit: string): number {
  // A share is a number without a unit, and may be written in percent.
  const wanted = unit === 'share' ? { unit: '1', maximum: to } : { unit };
  const said = writtenQuantity(text, { type: 'number', minimum: from, ...wanted });
  if (said?.value !== undefined && said.value >= from && said.value <= to) return said.value;
  const expected = `a number from ${from} to ${to}${PLAIN.includes(unit) ? '' : ` ${unit}`}`;
  throw usageMistake(typed, expected, said?.problem?.fix ?? likelyFix(said !== undefined, unit));
}

function likelyFix(isNumber: boolean, unit: string): string {
  if (unit === 'share') return 'a share, as 0.9 or "90 %"';
  if (isNumber) return 'one within that';
  const what = PLAIN.includes(unit) ? 'digits' : unit === 'deg' ? 'degrees' : `a number of ${unit}`;
  return `${what}, with a point before decimals`;
}

/**
 * A whole number that an option takes; undefined where it was not typed.
 * throws: USAGE where it is none, or not within
 */
export function wholeNumber(
  args: Arguments,
  option: OptionName,
  from: number,
  to: number,
): number | undefined {
  const value = args.number(option, from, to);
  if (value === undefined || Number.isInteger(value)) return value;
  throw usageMistake(`--${option} ${value}`, 'a whole number', `--${option} ${Math.round(value)}`);
}
