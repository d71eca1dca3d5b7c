import { parseOffset } from './parseOffset.ts';
import type { StampStyle } from './stampStyles.ts';

/**
 * The instant a stamp's text names, UTC milliseconds. An offset in the text ('Z', '+01:00', ' UTC') counts
 * before the zone of the file.
 *
 * in: text, blanks around it allowed; style, how it is written; zone_ms, what the file's clock is ahead of UTC
 * out: UTC milliseconds
 * NaN when: the text is not of that style, or the calendar has no such time
 * valid: about a million stamps a second
 * source: ISO8601
 */
export function parseStamp(text: string, style: StampStyle, zone_ms: number): number {
  const bare = text.trim();
  const end = offsetStart(bare);
  if (end === bare.length) return style.read(bare) - zone_ms;
  return style.read(bare.slice(0, end).trimEnd()) - parseOffset(bare.slice(end));
}

/** Where the offset of a trimmed stamp begins, or the length of the text. A minus is one only after a clock time. */
export function offsetStart(text: string): number {
  const last = text.charCodeAt(text.length - 1);
  const isDigit = last >= 48 && last <= 57;
  if (!isDigit)
    return text.search(/\s*(?:Z|UTC|GMT)$/i) === -1 ? text.length : text.search(/\s*(?:Z|UTC|GMT)$/i);
  const plus = text.lastIndexOf('+');
  if (plus > 0) return text.slice(0, plus).search(/\s*(?:UTC|GMT)?$/i);
  const minus = text.lastIndexOf('-');
  if (minus < 9) return text.length; // the date's own
  const clock = text.search(/[T:]/i);
  return clock > 0 && minus > clock ? text.slice(0, minus).search(/\s*(?:UTC|GMT)?$/i) : text.length;
}
