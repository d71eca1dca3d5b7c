import { HOUR_MS } from '../common/time.ts';
import type { YearColumns } from '../year/YearColumns.ts';

/** Promised and lit, dim (on, below the promised light) or out (off), or the LED on beyond the promise. */
export type SpanKind = 'lit' | 'dim' | 'out' | 'beyond';

/** A stretch of a night, UTC milliseconds. */
export interface NightSpan {
  from_ms: number;
  to_ms: number;
  kind: SpanKind;
}

/** A night to be taken apart: from noon to noon, and when it first was short (NaN where it never was). */
export interface NightBounds {
  from_ms: number;
  to_ms: number;
  firstShort_ms: number;
}

type Hours = Pick<YearColumns, 'count' | 'promised_s' | 'lit_s' | 'short_s' | 'dim_s' | 'shining_s'>;

const HOUR_S = 3600;
const ROUNDING_S = 1;

/**
 * When a night was lit, dim and out, UTC milliseconds, from the hours of a trial and the first short instant.
 * The length of each kind within an hour is as the hours say; its place within the hour follows from the hours beside
 * it: promised time is one stretch, and what was short at the end of an hour is short at the beginning of the next. A
 * lamp fades before it goes out, unless it was out before.
 *
 * in: night; columns; start_ms of the record; joined, whether the record is closed to a ring
 * out: stretches in the order of time, those that touch and are of one kind made one
 * valid: several changes within an hour are shown as one
 */
export function nightSpans(
  night: NightBounds,
  columns: Hours,
  start_ms: number,
  joined: boolean,
): NightSpan[] {
  const spans: NightSpan[] = [];
  const { count } = columns;
  const first = Math.floor((night.from_ms - start_ms) / HOUR_MS);
  const stop = Math.ceil((night.to_ms - start_ms) / HOUR_MS);
  const at = (column: Float64Array, i: number): number =>
    joined ? column[((i % count) + count) % count]! : (column[i] ?? 0);
  let shortBefore = false;
  for (let i = first; i < stop; i++) {
    const promised_s = Math.min(at(columns.promised_s, i), HOUR_S);
    const shining_s = at(columns.shining_s, i);
    if (promised_s < ROUNDING_S && shining_s < ROUNDING_S) continue;
    const hour_ms = start_ms + i * HOUR_MS;
    const add = (from_s: number, to_s: number, kind: SpanKind) => {
      const from_ms = Math.max(hour_ms + from_s * 1000, night.from_ms);
      const to_ms = Math.min(hour_ms + to_s * 1000, night.to_ms);
      if (to_ms - from_ms >= ROUNDING_S * 1000) push(spans, { from_ms, to_ms, kind });
    };
    const early = at(columns.promised_s, i - 1) > ROUNDING_S || at(columns.promised_s, i + 1) <= ROUNDING_S;
    const begin_s = early ? 0 : HOUR_S - promised_s;
    const end_s = begin_s + promised_s;
    const short_s = Math.min(at(columns.short_s, i), promised_s);
    const dim_s = Math.min(at(columns.dim_s, i), short_s);
    const outside_s = promised_s < ROUNDING_S ? shining_s : shining_s - at(columns.lit_s, i) - dim_s;
    const beyond_s = Math.min(Math.max(outside_s, 0), HOUR_S - promised_s);
    if (promised_s < ROUNDING_S) {
      if (at(columns.shining_s, i - 1) > ROUNDING_S) add(0, beyond_s, 'beyond');
      else add(HOUR_S - beyond_s, HOUR_S, 'beyond');
      continue;
    }
    if (!early) add(begin_s - beyond_s, begin_s, 'beyond');
    const fell_s = (night.firstShort_ms - hour_ms) / 1000;
    let short_from_s: number = shortBefore ? begin_s : end_s - short_s;
    if (fell_s >= begin_s && fell_s < end_s) short_from_s = Math.min(fell_s, end_s - short_s);
    add(begin_s, short_from_s, 'lit');
    const outFirst = shortBefore && spans.at(-1)?.kind === 'out';
    const turns_s = short_from_s + (outFirst ? short_s - dim_s : dim_s);
    add(short_from_s, turns_s, outFirst ? 'out' : 'dim');
    add(turns_s, short_from_s + short_s, outFirst ? 'dim' : 'out');
    add(short_from_s + short_s, end_s, 'lit');
    if (early) add(end_s, end_s + beyond_s, 'beyond');
    if (short_s >= ROUNDING_S) shortBefore = short_from_s + short_s > end_s - ROUNDING_S;
    else shortBefore = false;
  }
  return spans;
}

/** Adds a span, or lengthens the last one where it touches it. */
function push(spans: NightSpan[], span: NightSpan): void {
  const last = spans[spans.length - 1];
  if (last !== undefined && last.kind === span.kind && span.from_ms - last.to_ms < ROUNDING_S * 1000) {
    last.to_ms = span.to_ms;
  } else spans.push(span);
}
