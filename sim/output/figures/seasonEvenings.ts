import { dateText } from '../../common/civilTime.ts';
import { DAY_MS } from '../../common/time.ts';
import type { NightRow } from '../../night/nightLedger.ts';

/** Seasons with a 29 February; July comes first north of the equator. */
const STARTS = { northern: Date.UTC(2023, 6, 1), southern: Date.UTC(2024, 0, 1) };
const DAYS = 366;

/**
 * The evenings of a season with a 29 February, in which those of any year have a place.
 *
 * in: southern, whether seasons begin with January
 * out: civil dates of some year
 */
export function seasonEvenings(southern: boolean): string[] {
  const start_ms = STARTS[southern ? 'southern' : 'northern'];
  return Array.from({ length: DAYS }, (_, day) => dateText(start_ms + day * DAY_MS));
}

/**
 * The nights of a winter, each in the place of its evening.
 *
 * in: nights; evenings, of a season
 * out: a place for each evening, undefined where the winter has none; in a year without a 29 February the day before
 */
export function placedInSeason(
  nights: readonly NightRow[],
  evenings: readonly string[],
): (NightRow | undefined)[] {
  const places = new Map(evenings.map((evening, day) => [evening.slice(5), day]));
  const placed = new Array<NightRow | undefined>(evenings.length).fill(undefined);
  for (const row of nights) placed[places.get(row.night.slice(5))!] = row;
  const leapDay = places.get('02-29')!;
  placed[leapDay] ??= placed[leapDay - 1];
  return placed;
}
