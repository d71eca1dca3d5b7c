/**
 * The nights of a stretch of time at a site. Night k runs from solar noon `noon_ms[k]` to `noon_ms[k + 1]` and
 * belongs to the civil date of its evening. All instants are UTC milliseconds.
 */
export interface NightCalendar {
  /** Number of nights touched by the record, the first and last perhaps in part. */
  count: number;
  /** count + 1 solar noons. */
  noon_ms: Float64Array;
  /** Sun's centre sinks through 6 degrees below the horizon; solar noon where it never rises above that. */
  dusk_ms: Float64Array;
  /** Sun's centre rises through 6 degrees below the horizon; the next solar noon where it never rises above that. */
  dawn_ms: Float64Array;
  /** 1 where the sun sinks to 6 degrees below the horizon, 0 for a white night: nothing can be promised then. */
  hasNight: Uint8Array;
  /** Civil date of the evening in the site's zone, 'YYYY-MM-DD'. */
  eveningDate: string[];
  /** 1 where the record holds the whole night from noon to noon. */
  complete: Uint8Array;
}
