import { bytesSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import type { ImportOptions } from '../../sim/weather/readWithClock.ts';
import { yearRows, yearText } from '../cli/weatherGarden.ts';

/** What is understood of an invented year near 54 north, 10 east, its rows changed one by one. */
export function smallWeather(
  change: (row: string, i: number) => string = (row) => row,
  options: ImportOptions = {},
) {
  const bytes = new TextEncoder().encode(yearText(yearRows(change).filter((row) => row !== '')));
  return importWeather([bytesSource({ name: 'made-up.csv', bytes })], {
    place: { latitude_deg: 54, longitude_deg: 10 },
    ...options,
  });
}

/** Without the light of so many hours from an hour on. */
export const without = (from: number, hours: number) => (row: string, i: number) =>
  i >= from && i < from + hours ? row.replace(/,[^,]*,/, ',,') : row;
