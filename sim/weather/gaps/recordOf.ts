import { sum } from 'd3-array';
import type { Site } from '../../sun/Site.ts';
import { hoursWithin, type WeatherOrigin, type WeatherRecord } from '../WeatherRecord.ts';
import { fillAir } from './fillAir.ts';
import type { FilledColumns } from './fillGaps.ts';

/** What to take of a filled record, and where it came from. */
export interface RecordOptions {
  /** Hours from <= i < to; all of them hold a value. */
  from: number;
  to: number;
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>;
  /** Temperature for hours without one, of the scenario. */
  constant_degC?: number | undefined;
  origin: Pick<WeatherOrigin, 'file' | 'sha256' | 'options'>;
}

/**
 * The weather record of a stretch of filled columns, marked hour by hour, with air temperature in every hour.
 * Direct and diffuse are NaN in hours that were filled, and are split from global there; snow, rain and wind are left
 * out where an hour of them lacks.
 *
 * in: filled, after fillGaps; options
 * out: the record; origin.options says what was filled
 */
export function recordOf(filled: FilledColumns, options: RecordOptions): WeatherRecord {
  const { from, to, site, constant_degC, origin } = options;
  const columns = hoursWithin(filled, from, to);
  const air = fillAir(columns, site, constant_degC);
  const filledHours = sum(filled.filled.subarray(from, to));
  const said: Record<string, string> = { ...origin.options };
  if (air.words !== 'measured') {
    const read = said['air temperature'];
    said['air temperature'] =
      read === undefined || air.words.startsWith('stand-in') ? air.words : `${read}; ${air.words}`;
  }
  if (filledHours > 0) said['filled hours'] = `${filledHours} of ${to - from}, marked hour by hour`;
  for (const [name, words] of [
    ['snowDepth_m', 'snow depth'],
    ['rain_mm', 'rain'],
    ['wind_m_s', 'wind'],
  ] as const) {
    if (!columns[name]?.some(Number.isNaN)) continue;
    said[words] = 'not used: hours of it are missing';
    delete columns[name];
  }
  return {
    ...columns,
    step_s: 3600,
    air_degC: air.air_degC,
    mark: filled.mark.slice(from, to),
    origin: { ...origin, options: said, filledHours },
  };
}
