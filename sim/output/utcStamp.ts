/**
 * An instant as UTC text to the second, for CSV files; '' for NaN.
 *
 * in: ms, UTC milliseconds
 * out: text such as 2025-12-21T15:40:12Z
 * source: ISO8601
 * @example utcStamp(0); // => '1970-01-01T00:00:00Z'
 */
export function utcStamp(ms: number): string {
  if (Number.isNaN(ms)) return '';
  return `${new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19)}Z`;
}
