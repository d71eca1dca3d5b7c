import { HOUR_MS } from '../common/time.ts';
import type { SunColumns } from '../sun/sunColumns.ts';

/** What an hour of weather rests on; the number stands in `WeatherRecord.mark`. */
export const WEATHER_MARKS = [
  'measured',
  'closed',
  'split',
  'filled',
  'stand-in',
  'day-sum',
  'synthetic',
] as const;

/**
 * Hourly columns, one typed column a quantity, contiguous from `start_ms`; NaN is a missing value, and what a file does
 * not have is absent. Row i covers [start_ms + i * 3600 s, + 3600 s) in UTC.
 */
export interface HourlyColumns {
  /** Start of the first hour, UTC milliseconds. */
  start_ms: number;
  count: number;
  /** Global horizontal irradiance, mean over the hour. */
  ghi_W_m2: Float64Array;
  /** Direct normal irradiance, as measured. */
  dni_W_m2?: Float64Array;
  /** Diffuse horizontal irradiance, as measured. */
  dhi_W_m2?: Float64Array;
  air_degC?: Float64Array;
  snowDepth_m?: Float64Array;
  rain_mm?: Float64Array;
  wind_m_s?: Float64Array;
}

/** Hourly weather that a run can go over: no NaN in global irradiance and air temperature. */
export interface WeatherRecord extends HourlyColumns {
  step_s: 3600;
  air_degC: Float64Array;
  /** The sun over these hours at the site, where the record was checked against it. */
  sun?: SunColumns;
  /** Index into WEATHER_MARKS of the worst thing this hour's irradiance rests on. */
  mark: Uint8Array;
  origin: WeatherOrigin;
}

/** Where a weather record came from and what was done to it, for the reports. */
export interface WeatherOrigin {
  /** File as the scenario or user named it. */
  file: string;
  /** SHA-256 of the file's bytes, hexadecimal. */
  sha256: string;
  /** How stamps, columns and units were read, in words that a report can print. */
  options: Record<string, string>;
  /** Hours that were filled or stand in. */
  filledHours: number;
}

/** The columns of irradiance, by name. */
export const IRRADIANCE_COLUMNS = ['ghi_W_m2', 'dni_W_m2', 'dhi_W_m2'] as const;
export type IrradianceColumn = (typeof IRRADIANCE_COLUMNS)[number];

/** The columns of a record, by the quantity that a reading of a file holds. */
export const COLUMN_OF = {
  ghi: 'ghi_W_m2',
  dni: 'dni_W_m2',
  dhi: 'dhi_W_m2',
  air_temperature: 'air_degC',
  snow_depth: 'snowDepth_m',
  rain: 'rain_mm',
  wind: 'wind_m_s',
} as const;
type Columns = Partial<Omit<HourlyColumns, 'start_ms' | 'count'>>;
export type ColumnName = keyof Columns;

/**
 * Columns of a record from the quantities of a reading, those that are there.
 *
 * in: quantities, in canonical units (W/m2, degC, m, m/s)
 * out: the same columns under a record's names; rain in mm, rounded so that millimetres as written come back
 */
export function columnsOf(quantities: Readonly<Partial<Record<string, Float64Array>>>): Columns {
  const columns: Columns = {};
  for (const [quantity, name] of Object.entries(COLUMN_OF)) {
    const values = quantities[quantity];
    if (values === undefined) continue;
    columns[name] =
      name === 'rain_mm' ? values.map((depth_m) => Number((depth_m * 1000).toPrecision(15))) : values;
  }
  return columns;
}

/**
 * A copy of some hours of columns, NaN where they reach beyond the first and the last.
 *
 * in: columns; from, to, hours from <= i < to, counted from the first
 */
export function hoursWithin(columns: HourlyColumns, from: number, to: number): HourlyColumns {
  const within = (values: Float64Array): Float64Array => {
    const part = new Float64Array(to - from).fill(Number.NaN);
    part.set(values.subarray(Math.max(from, 0), to), Math.max(-from, 0));
    return part;
  };
  const part: HourlyColumns = {
    start_ms: columns.start_ms + from * HOUR_MS,
    count: to - from,
    ghi_W_m2: within(columns.ghi_W_m2),
  };
  for (const name of Object.values(COLUMN_OF)) {
    const values = columns[name];
    if (values !== undefined && name !== 'ghi_W_m2') part[name] = within(values);
  }
  return part;
}
