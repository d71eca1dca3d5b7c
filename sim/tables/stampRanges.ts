import { mode } from 'd3-array';
import { DAY_MS } from '../common/time.ts';
import { readClock, ZONE_LETTERS } from './stampStyles.ts';

const CLOCK = String.raw`\d{1,2}(?:[:.h]\d\d(?:[:.]\d\d)?)?(?: ?(?:h|Uhr|[AaPp]\.?[Mm]\.?))?`;
/** A date before the time of day, weekday and blanks inside it allowed. */
const DATE = String.raw`(?:\S[^:]*?(?:[ T_]|, ?))?`;
const RANGE = new RegExp(
  String.raw`^(?<date>${DATE})(?<from>${CLOCK})(?<sign>\s*[-\u2013\u2014]\s*|\s+(?:to|until|till?|tot|bis)\s+)(?<to>${DATE}${CLOCK})(?<zone> ?(?:Z|UTC|UT|GMT|${ZONE_LETTERS}))?$`,
);

/** No interval is written at more length. */
const LONGEST = 80;

/** The two ends of an interval that a cell states whole. */
export interface StampRange {
  /** Text of the start: its date, where it has one, its time of day, and the letters of a zone behind the range. */
  from: string;
  /** Text of the end, with a date of its own or of the time of day alone. */
  to: string;
  /** Minutes, a word or a blank between them say that they are times, which '3-4' alone does not. */
  told: boolean;
}

/**
 * The interval that a text states by both its ends: '14:00-15:00', '14 bis 15 Uhr', '2021-12-31 14:00 to 15:00',
 * '31.12.2021 23:00 - 01.01.2022 00:00'. '00:00-05:00' may as well be a clock with an offset: which of the two a column
 * holds, its other rows tell.
 *
 * in: text, trimmed
 * out: its ends; undefined where it has no such form
 */
export function stampRange(text: string): StampRange | undefined {
  if (text.length > LONGEST) return undefined;
  const { date, from, sign, to, zone = '' } = RANGE.exec(text)?.groups ?? {};
  if (to === undefined) return undefined;
  return {
    from: `${date}${from}${zone}`,
    to: `${to}${zone}`,
    told: /[:.hr]/.test(from!) || /\s/.test(sign!),
  };
}

/** Share of the cells of a column that state an interval of the usual length; where clocks are put on or back one does not. */
const RANGES_SHARE = 0.95;

/**
 * Whether the cells of a column state intervals by both their ends: nearly all of one length, whatever the time of day.
 * Of clocks with one offset ('14:00-05:00') the seeming ends would stay.
 *
 * in: texts, trimmed; read, milliseconds of an end, from midnight or with its date
 * out: whether they do
 */
export function areRanges(texts: readonly string[], read: (text: string) => number): boolean {
  if (texts.length === 0 || stampRange(texts[0]!) === undefined) return false;
  const starts = new Set<number>();
  const spans = texts.map((text) => {
    const { from = '', to = '' } = stampRange(text) ?? {};
    const from_ms = read(from);
    starts.add(from_ms % DAY_MS);
    const whole_ms = read(to) - from_ms;
    // An end without a date of its own may lie behind midnight.
    const span_ms = Number.isNaN(whole_ms) ? readClock(to) - (from_ms % DAY_MS) : whole_ms;
    return span_ms > 0 ? span_ms : span_ms + DAY_MS;
  });
  const usual_ms = mode(spans.filter((span) => span <= DAY_MS));
  return starts.size > 1 && spans.filter((span) => span === usual_ms).length >= RANGES_SHARE * texts.length;
}
