/** What happens at an instant of a night plan. */
export const PLAN = {
  /** Solar noon: the next night begins. */
  noon: 0,
  dusk: 1,
  dawn: 2,
  /** The schedule changes: value is the share of the time that the LED is on from here on; see also glow. */
  share: 3,
  /** Promised time begins (1) or ends (0). */
  promise: 4,
} as const;

/**
 * The instants at which something changes by the clock or the sun, in the order of time, beside the hours.
 * Seconds count from the start of the record. Nights are numbered from 0 at the first instant of the run.
 */
export interface NightPlan {
  from_s: number;
  to_s: number;
  nights: number;
  count: number;
  at_s: Float64Array;
  what: Uint8Array;
  value: Float64Array;
  /**
   * Of a change of the schedule: share of its full light that the LED shows while on, 0 is off. A lamp that waits for
   * motion glows, though it may be on for no part of an hour.
   */
  glow: Float64Array;
}
