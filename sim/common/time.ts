export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/**
 * Day of the year in UTC with its fraction: 1 at the first instant of 1 January.
 *
 * in: ms, UTC milliseconds
 * out: 1 to below 367, days
 * @example dayOfYear(43200000); // => 1.5
 */
export function dayOfYear(ms: number): number {
  return 1 + (ms - Date.UTC(new Date(ms).getUTCFullYear(), 0, 1)) / DAY_MS;
}
