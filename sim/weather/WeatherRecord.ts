import type { SunColumns } from '../sun/sunColumns.ts';

/** What an hour of weather rests on; the number stands in `WeatherRecord.mark`. */
export const WEATHER_MARKS = ['measured', 'closed', 'split', 'filled', 'stand-in', 'day-sum'] as const;

/**
 * Hourly weather, one typed column a quantity, contiguous from `start_ms`, no NaN after checking.
 * Row i covers [start_ms + i * 3600 s, + 3600 s) in UTC.
 */
export interface WeatherRecord {
  /** Start of the first hour, UTC milliseconds. */
  start_ms: number;
  step_s: 3600;
  count: number;
  /** Global horizontal irradiance, mean over the hour. */
  ghi_W_m2: Float64Array;
  /** Direct normal irradiance, as measured; absent where the file has none. */
  dni_W_m2?: Float64Array;
  /** Diffuse horizontal irradiance, as measured; absent where the file has none. */
  dhi_W_m2?: Float64Array;
  air_degC: Float64Array;
  snowDepth_m?: Float64Array;
  rain_mm?: Float64Array;
  wind_m_s?: Float64Array;
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

/**
 * Hourly columns as a file gave them, one typed column a quantity; NaN is a missing value.
 * Row i covers [start_ms + i * 3600 s, + 3600 s) in UTC.
 */
export interface HourlyColumns {
  /** Start of the first hour, UTC milliseconds. */
  start_ms: number;
  count: number;
  ghi_W_m2: Float64Array;
  dni_W_m2?: Float64Array;
  dhi_W_m2?: Float64Array;
  air_degC?: Float64Array;
  snowDepth_m?: Float64Array;
  rain_mm?: Float64Array;
  wind_m_s?: Float64Array;
}

/** The columns of irradiance, by name. */
export const IRRADIANCE_COLUMNS = ['ghi_W_m2', 'dni_W_m2', 'dhi_W_m2'] as const;
export type IrradianceColumn = (typeof IRRADIANCE_COLUMNS)[number];
