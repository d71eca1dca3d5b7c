/**
 * An instant for messages, to the minute, in UTC.
 *
 * in: ms, UTC milliseconds
 * out: text
 * @example utcText(0); // => '1970-01-01 00:00 UTC'
 */
export function utcText(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}
