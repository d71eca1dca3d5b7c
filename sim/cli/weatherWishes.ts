import type { WeatherWishes } from '../trial/loadWeather.ts';
import type { Arguments } from './Command.ts';
import type { Io } from './Io.ts';
import type { OptionName } from './options.ts';
import { pathFrom } from './pathFrom.ts';
import { usageMistake } from './usageMistake.ts';

/** Options of every command that reads weather of any layout. */
export const WISH_OPTIONS = [
  'zone',
  'marks',
  'believe',
  'accept-filled',
] as const satisfies readonly OptionName[];

/**
 * What the command line says of the weather.
 *
 * in: args; io
 * out: wishes for loadWeather
 * throws: USAGE for a word that is none of those an option takes
 */
export function weatherWishes(args: Arguments, io: Io): WeatherWishes {
  const file = args.text('weather');
  const zone = args.text('zone');
  const label = oneOf(args, 'marks', ['start', 'middle', 'end'] as const);
  const clock = oneOf(args, 'believe', ['sun', 'file'] as const);
  return {
    ...(file === undefined ? {} : { files: [{ path: pathFrom(io.cwd, file), name: file }] }),
    ...(zone === undefined ? {} : { zone }),
    ...(label === undefined ? {} : { label }),
    ...(clock === undefined ? {} : { clock }),
    ...(args.has('accept-filled') ? { acceptFilled: true } : {}),
  };
}

/**
 * A number that an option states.
 *
 * in: args; option; from, to, what it can be
 * throws: USAGE where it is no number, or not within
 */
export function numberOf(args: Arguments, option: OptionName, from: number, to: number): number | undefined {
  const text = args.text(option);
  if (text === undefined) return undefined;
  const value = Number(text);
  if (text.trim() !== '' && value >= from && value <= to) return value;
  throw usageMistake(
    `--${option} ${text}`,
    `a number from ${from} to ${to}`,
    'with a decimal point, degrees as decimals',
  );
}

function oneOf<Word extends string>(
  args: Arguments,
  option: OptionName,
  words: readonly Word[],
): Word | undefined {
  const text = args.text(option);
  if (text === undefined) return undefined;
  const word = words.find((known) => known === text);
  if (word !== undefined) return word;
  throw usageMistake(`--${option} ${text}`, words.join(', '), `--${option} ${words[0]!}`);
}
