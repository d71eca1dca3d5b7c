/** What happens at an instant of a night plan. */
export const PLAN = {
  /** Solar noon: the next night begins. */
  noon: 0,
  dusk: 1,
  dawn: 2,
  /** The schedule changes the share of the time that the LED is on; value is the new share, 0 is off. */
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
}
