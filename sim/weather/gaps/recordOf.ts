import { HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import type { WeatherOrigin, WeatherRecord } from '../WeatherRecord.ts';
import { fillAir } from './fillAir.ts';
import type { FilledColumns } from './fillGaps.ts';

/** What to take of a filled record, and where it came from. */
export interface RecordOptions {
  /** Hours from <= i < to; all of them hold a value. */
  from: number;
  to: number;
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>;
  /** Temperature for hours without one, of the scenario. */
  constant_degC?: number;
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
  const { columns } = filled;
  const { from, to } = options;
  const part = (values: Float64Array) => values.slice(from, to);
  const start_ms = columns.start_ms + from * HOUR_MS;
  const count = to - from;
  const air = fillAir(
    { start_ms, count, ...(columns.air_degC === undefined ? {} : { air_degC: part(columns.air_degC) }) },
    options.site,
    options.constant_degC,
  );
  const filledHours = filled.filled.subarray(from, to).reduce((sum, flag) => sum + flag, 0);
  const said: Record<string, string> = { ...options.origin.options };
  if (air.words !== 'measured') {
    const read = said['air temperature'];
    said['air temperature'] =
      read === undefined || air.words.startsWith('stand-in') ? air.words : `${read}; ${air.words}`;
  }
  if (filledHours > 0) said['filled hours'] = `${filledHours} of ${count}, marked hour by hour`;
  const record: WeatherRecord = {
    start_ms,
    step_s: 3600,
    count,
    ghi_W_m2: part(columns.ghi_W_m2),
    air_degC: air.air_degC,
    mark: filled.mark.slice(from, to),
    origin: { ...options.origin, options: said, filledHours },
  };
  if (columns.dni_W_m2 !== undefined) record.dni_W_m2 = part(columns.dni_W_m2);
  if (columns.dhi_W_m2 !== undefined) record.dhi_W_m2 = part(columns.dhi_W_m2);
  for (const name of ['snowDepth_m', 'rain_mm', 'wind_m_s'] as const) {
    const values = columns[name];
    if (values === undefined) continue;
    const cut = part(values);
    if (cut.some(Number.isNaN)) said[NAMES[name]] = 'not used: hours of it are missing';
    else record[name] = cut;
  }
  return record;
}

const NAMES = { snowDepth_m: 'snow depth', rain_mm: 'rain', wind_m_s: 'wind' } as const;
