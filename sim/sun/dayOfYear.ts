/**
 * Day of the year in UTC with its fraction: 1 at the first instant of 1 January.
 *
 * in: ms, UTC milliseconds
 * out: 1 to below 367, days
 * @example dayOfYear(43200000); // => 1.5
 */
export function dayOfYear(ms: number): number {
  return 1 + (ms - Date.UTC(new Date(ms).getUTCFullYear(), 0, 1)) / 86_400_000;
}
