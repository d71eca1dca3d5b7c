/**
 * Irradiance with its stamps as the file claims them, for the sun to judge. Rows may be in any order, with gaps;
 * instantaneous values and means are treated alike (an instantaneous value's middle is its stamp).
 */
export interface SunSeries {
  /** Stamps in UTC milliseconds after applying the claimed zone, whatever they mark. */
  stamp_ms: Float64Array;
  /** Length of the measured interval (or distance of the samples), 10 s to 3 h. */
  step_s: number;
  /** Global horizontal irradiance, NaN where missing. */
  ghi_W_m2: Float64Array;
  /** Claimed, north positive. */
  latitude_deg: number;
  /** Claimed, east positive. */
  longitude_deg: number;
}
