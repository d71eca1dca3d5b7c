import { type RecordBreak, sinceLastBreak } from '../climate/recordBreak.ts';
import { dateText } from '../common/civilTime.ts';
import { fixed } from '../common/csvText.ts';
import { DAY_MS, MONTH_NAMES } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/**
 * The part of the weather that counts: after a break in it, as when its station moved into or out of shade, or all of it
 * where that is wanted; how it was read says so.
 *
 * in: record; site; whole, whether all of it is to count
 */
export function unbrokenWeather(
  record: WeatherRecord,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
  whole: boolean,
): WeatherRecord {
  const { record: later, last, breaks, from_ms } = sinceLastBreak(record, site);
  if (last === undefined) return record;
  // Days begin at midnight by the sun.
  const day = dateText(from_ms + DAY_MS / 2);
  const dayBefore = dateText(from_ms - DAY_MS / 2);
  const said = {
    break: breakWords(last, breaks),
    counted: whole
      ? 'the whole record all the same (--whole-record)'
      : `from ${day} on alone (--whole-record keeps all${last.dullerAfter ? `, --to ${dayBefore} what lies before` : ''})`,
  };
  const counted = whole ? record : later;
  return { ...counted, origin: { ...counted.origin, options: { ...counted.origin.options, ...said } } };
}

function breakWords({ month, before, after, dullerAfter }: RecordBreak, breaks: number): string {
  const several = breaks === 1 ? '' : `the last of ${breaks}: `;
  const name = MONTH_NAMES[month - 1]!;
  const years = (count: number, when: string) => `${count} ${count === 1 ? 'year' : 'years'} ${when}`;
  const into = dullerAfter ? 'into' : 'out of';
  return (
    `${several}the brightest day of ${name} has a clearness of ${between(before)} in ${years(before.length, 'before')}, ` +
    `${between(after)} in ${years(after.length, 'after')}: the station came ${into} shade or moved, or its sensor is another`
  );
}

function between(values: readonly number[]): string {
  const [low, high] = [Math.min(...values), Math.max(...values)].map((value) => fixed(value, 2));
  return low === high ? low! : `${low} to ${high}`;
}
