import type { Arguments } from './Command.ts';
import type { OptionName } from './options.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * A whole number of the command line.
 *
 * in: args; option; from and to, the least and the most
 * out: undefined where it was not typed
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
