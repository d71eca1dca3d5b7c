import { bytesSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import type { ImportOptions } from '../../sim/weather/readWithClock.ts';
import { knownSeries } from './recognise/knownSeries.ts';

const HOUR = 3_600_000;
/** The year that the file holds, as it was. */
export const known = knownSeries(Date.UTC(2025, 0, 1), 365);
const { latitude_deg, longitude_deg } = known;
export const PLACE = { place: { latitude_deg, longitude_deg } };

/** A year with its stamps so many minutes after the start of each hour. */
export function yearFile(
  heading: string,
  minutes: number,
  change: (line: string, i: number) => string = (line) => line,
) {
  const lines = [`${heading},GHI (W/m2),air temperature (degC)`];
  for (let i = 0; i < known.count; i++) {
    const stamp = new Date(known.start_ms + i * HOUR + minutes * 60_000)
      .toISOString()
      .slice(0, 16)
      .replace('T', ' ');
    lines.push(change(`${stamp},${known.ghi_W_m2[i]!.toFixed(3)},${known.air_degC[i]!.toFixed(2)}`, i));
  }
  return [bytesSource({ name: 'made-up.csv', bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) })];
}

/** The import of such a file. */
export const understand = (heading: string, minutes: number, options: ImportOptions = PLACE) =>
  importWeather(yearFile(heading, minutes), options);

/** Greatest difference from the known year, W/m2, hour by hour. */
export function off(ghi_W_m2: Float64Array): number {
  return ghi_W_m2.reduce((most, value, i) => Math.max(most, Math.abs(value - known.ghi_W_m2[i]!)), 0);
}
