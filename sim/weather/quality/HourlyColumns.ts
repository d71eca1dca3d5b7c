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
