const OFFSET = /^\s*(?:UTC|GMT)?\s*(?:([+-])(\d{1,2})(?::?([0-5]\d))?)?$/i;

/**
 * What a clock is ahead of UTC, milliseconds, from 'UTC', 'Z', '+01:00', '-0330', 'UTC+1'. Fixed offsets only.
 *
 * in: text
 * out: milliseconds, positive east
 * NaN when: the text is no fixed offset, or beyond 15 hours
 * source: ISO8601
 * @example parseOffset('UTC+1'); // => 3600000
 */
export function parseOffset(text: string): number {
  const bare = text.trim();
  if (/^z$/i.test(bare)) return 0;
  const parts = bare === '' ? null : OFFSET.exec(bare);
  if (parts === null) return Number.NaN;
  const minutes = Number(parts[2] ?? 0) * 60 + Number(parts[3] ?? 0);
  if (minutes > 15 * 60) return Number.NaN;
  return (parts[1] === '-' ? -minutes : minutes) * 60_000 + 0;
}
