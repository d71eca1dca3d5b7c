import type { RunResult } from '../trial/Trial.ts';
import { shownWords } from './words.ts';

/**
 * What a result rests on, and what must not be missed of how it was read, as a paragraph.
 *
 * in: weather, as results hold it; file, as it was named
 */
export function weatherWords(
  { first_utc, hours, filled_hours, options }: RunResult['weather'],
  file?: string,
): string {
  const filled = filled_hours === 0 ? '' : `, ${filled_hours} of them filled or standing in`;
  const named = file === undefined ? '' : `${file}, `;
  return `Weather: ${named}${hours} hours from ${first_utc}${filled}.${weatherNotes(options)}`;
}

/** A record that is run over whole, and is whole years: nothing to say. */
const WHOLE_YEARS = /whole year.*that is the whole record/;

/** What must not be missed of how the weather was read. */
function weatherNotes(options: Record<string, string>): string {
  const air = options['air temperature'];
  return [
    options.believe === undefined ? '' : `Stamps: ${options.clock ?? options.believe}.`,
    air?.startsWith('stand-in') ? `Air temperature is a ${air}.` : '',
    shownWords(options),
    options.hours === undefined ? '' : `A row a day, ${options.hours}.`,
    options.stretch === undefined || WHOLE_YEARS.test(options.stretch)
      ? ''
      : `Of the file: ${options.stretch}.`,
    ...(options.break === undefined
      ? []
      : [`A BREAK IN THE RECORD, ${options.break}. Counted: ${options.counted}.`]),
    options.start === undefined ? '' : `${options.start}.`,
  ]
    .filter((note) => note !== '')
    .map((note) => ` ${note}`)
    .join('');
}
