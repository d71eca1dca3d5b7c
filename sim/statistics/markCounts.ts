import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';

/**
 * How many hours rest on what, hours by weather mark; marks that do not occur are left out.
 *
 * in: mark, an index into WEATHER_MARKS for each hour
 * out: counts by name
 */
export function markCounts(mark: Uint8Array): { mark: string; hours: number }[] {
  const counts = new Array<number>(WEATHER_MARKS.length).fill(0);
  for (const which of mark) counts[which]!++;
  return WEATHER_MARKS.map((name, k) => ({ mark: name, hours: counts[k]! })).filter(({ hours }) => hours > 0);
}
