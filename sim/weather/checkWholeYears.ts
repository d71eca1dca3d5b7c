import { InputProblem } from '../common/InputProblem.ts';
import { HOUR_MS } from '../common/time.ts';
import { utcText } from '../tables/civilMs.ts';
import type { WeatherRecord } from './WeatherRecord.ts';

/**
 * Makes sure that a record holds whole years: from an instant to the same instant some years on, 8760 hours a year,
 * 8784 with a 29 February in it.
 *
 * in: record, its start, count and origin
 * out: how many years
 * throws: WEATHER_PARTIAL_YEAR, with the hours that lack or are too many
 */
export function checkWholeYears(record: Pick<WeatherRecord, 'start_ms' | 'count' | 'origin'>): number {
  const { start_ms, count } = record;
  const end_ms = start_ms + count * HOUR_MS;
  let years = 0;
  while (anniversary(start_ms, years + 1) <= end_ms) years++;
  const surplus = (end_ms - anniversary(start_ms, years)) / HOUR_MS;
  if (surplus === 0 && years > 0) return years;
  const lacking = (anniversary(start_ms, years + 1) - end_ms) / HOUR_MS;
  const whole = (anniversary(start_ms, Math.max(years, 1)) - start_ms) / HOUR_MS;
  const place = { code: 'WEATHER_PARTIAL_YEAR', file: record.origin.file } as const;
  const got = `${count} hours from ${utcText(start_ms)} to ${utcText(end_ms)}`;
  const yearsWord = years === 1 ? '1 whole year' : `${years} whole years`;
  if (years > 0 && surplus <= lacking) {
    throw new InputProblem({
      ...place,
      got: `${got}, which is ${yearsWord} and ${hoursText(surplus)} more`,
      expected: `whole years (${whole} hours)`,
      fix: `take the rows from ${utcText(anniversary(start_ms, years))} on away, or those of the first ${hoursText(surplus)}.`,
    });
  }
  const wanted = (anniversary(start_ms, years + 1) - start_ms) / HOUR_MS;
  throw new InputProblem({
    ...place,
    got: `${got}, ${hoursText(lacking)} short of ${years + 1 === 1 ? 'a year' : `${years + 1} years`}`,
    expected: `whole years (${wanted} hours)`,
    fix: `add the hours ${lackingText(start_ms, end_ms, years + 1)}.`,
  });
}

/** Where the lacking hours lie: before the start if the record ends with a calendar year, else after its end. */
function lackingText(start_ms: number, end_ms: number, years: number): string {
  const ends = utcText(end_ms).includes('-01-01 00:00');
  if (ends && !utcText(start_ms).includes('-01-01 00:00')) {
    return `from ${utcText(anniversary(end_ms, -years))} to ${utcText(start_ms)}`;
  }
  return `from ${utcText(end_ms)} to ${utcText(anniversary(start_ms, years))}`;
}

/** The same instant of the calendar some years on, UTC; of a 29 February, 1 March. */
export function anniversary(ms: number, years: number): number {
  const date = new Date(ms);
  return date.setUTCFullYear(date.getUTCFullYear() + years);
}

function hoursText(hours: number): string {
  return hours === 1 ? '1 hour' : `${hours} hours`;
}
