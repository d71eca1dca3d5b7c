import { DAY_MS } from '../../common/time.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { type FoldedDays, foldSeries, type SunSeries } from './foldSeries.ts';
import {
  columnSums,
  FIRST_LOOK,
  FIRST_LOOK_MIN,
  leastIndex,
  negativeLogLikelihood,
  wrapped,
} from './negativeLogLikelihood.ts';

/** A stretch of days under one convention of stamps. */
export interface Segment {
  /** Folded days first .. last, both within. */
  first: number;
  last: number;
  reading: ClockReading;
}

/** Cost that a change of convention must save before it is accepted. */
const CHANGE_COST = 25;
/** Conventions closer than this are the same one: seasons move the balance of a day by as much. */
const LEAST_CHANGE_MIN = 22;
/** Days looked at on either side of a change. */
const SIDE_DAYS = 200;

/**
 * Stretches of days within which the stamps keep one offset (minutes), in order of time: one where the convention
 * never changes. The path of least cost through day and offset, each change costing as much as 25 units of
 * log-likelihood; then every stretch is read closely and like neighbours are joined.
 *
 * in: days, as folded
 * out: the stretches, covering all days; none where there are no days
 * valid: changes of 22 minutes or more that last a fortnight or more
 * source: Viterbi1967
 */
export function findSegments(days: FoldedDays): Segment[] {
  const count = days.day_ms.length;
  if (count === 0) return [];
  const all = Array.from({ length: count }, (_, d) => d);
  const look = negativeLogLikelihood(days, all, FIRST_LOOK);
  const bounds = changeDays(look, count);
  const segments = bounds.map((first, k) => {
    const last = (bounds[k + 1] ?? count) - 1;
    return segmentOf(days, all, look, first, last);
  });
  return joined(days, all, look, segments);
}

/** First days of the stretches on the cheapest path; steps of one place of the first look are no change. */
function changeDays(look: Float64Array, count: number): number[] {
  const width = FIRST_LOOK.length;
  const from = new Int16Array(count * width);
  let total = look.slice(0, width);
  for (let d = 1; d < count; d++) {
    const best = leastIndex(total);
    const next = new Float64Array(width);
    for (let j = 0; j < width; j++) {
      const change = total[best]! + CHANGE_COST < total[j]!;
      from[d * width + j] = change ? best : j;
      next[j] = (change ? total[best]! + CHANGE_COST : total[j]!) + look[d * width + j]!;
    }
    total = next;
  }
  const first = [0];
  let state = leastIndex(total);
  for (let d = count - 1; d > 0; d--) {
    const before = from[d * width + state]!;
    if (Math.abs(wrapped((state - before) * FIRST_LOOK_MIN)) > FIRST_LOOK_MIN) first.push(d);
    state = before;
  }
  return first.sort((a, b) => a - b);
}

/** Joins neighbours that are alike, or whose days on either side of the change gain too little by it. */
function joined(
  days: FoldedDays,
  all: readonly number[],
  look: Float64Array,
  segments: readonly Segment[],
): Segment[] {
  let list = [...segments];
  while (list.length > 1) {
    let at = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k + 1 < list.length; k++) {
      const a = list[k]!;
      const b = list[k + 1]!;
      const apart = Math.abs(wrapped(a.reading.offset_min - b.reading.offset_min)) / LEAST_CHANGE_MIN;
      const worth = Math.min(apart, gain(look, a, b) / CHANGE_COST);
      if (worth < least) {
        least = worth;
        at = k;
      }
    }
    if (least >= 1) return list;
    const first = list[at]!.first;
    const last = list[at + 1]!.last;
    list = [...list.slice(0, at), segmentOf(days, all, look, first, last), ...list.slice(at + 2)];
  }
  return list;
}

function segmentOf(
  days: FoldedDays,
  all: readonly number[],
  look: Float64Array,
  first: number,
  last: number,
): Segment {
  const width = FIRST_LOOK.length;
  const own = look.subarray(first * width, (last + 1) * width);
  return { first, last, reading: estimateClockOffset(days, all.slice(first, last + 1), { look: own }) };
}

/** Cost saved by giving the days on either side of a change their own offsets instead of one. */
function gain(look: Float64Array, a: Segment, b: Segment): number {
  const width = FIRST_LOOK.length;
  const before = columnSums(
    look.subarray(Math.max(a.first, a.last + 1 - SIDE_DAYS) * width, b.first * width),
    width,
  );
  const after = columnSums(
    look.subarray(b.first * width, Math.min(b.last + 1, b.first + SIDE_DAYS) * width),
    width,
  );
  const both = before.map((cost, j) => cost + after[j]!);
  return both[leastIndex(both)]! - before[leastIndex(before)]! - after[leastIndex(after)]!;
}

interface Side {
  firstDay_ms: number;
  lastDay_ms: number;
  reading: ClockReading;
}

/** Days looked at on either side. */
const MARGIN_DAYS = 15;

/**
 * The day on which the stamps of a series change from one offset to another, among all its days (UTC milliseconds of
 * the last day before and the first day after). For long series, of which only every few days were looked at.
 *
 * in: series; before and after, the two neighbouring stretches with their offsets
 * out: days as by the stamps; the ones given where the days between hold nothing
 */
export function placeChange(
  series: SunSeries,
  before: Side,
  after: Side,
): { lastDay_ms: number; firstDay_ms: number } {
  const from_ms = Math.max(before.firstDay_ms, before.lastDay_ms - MARGIN_DAYS * DAY_MS);
  const to_ms = Math.min(after.lastDay_ms, after.firstDay_ms + MARGIN_DAYS * DAY_MS) + DAY_MS;
  const rows: number[] = [];
  for (let i = 0; i < series.stamp_ms.length; i++) {
    const stamp = series.stamp_ms[i]!;
    if (stamp >= from_ms && stamp < to_ms) rows.push(i);
  }
  const days = foldSeries({
    ...series,
    stamp_ms: Float64Array.from(rows, (i) => series.stamp_ms[i]!),
    ghi_W_m2: Float64Array.from(rows, (i) => series.ghi_W_m2[i]!),
  });
  const count = days.day_ms.length;
  const offsets = [before.reading.offset_min, after.reading.offset_min];
  const costs = negativeLogLikelihood(days, Array.from(days.day_ms.keys()), offsets);
  // Cost of the days 0 .. split - 1 before the change and split .. after it, against all after.
  let saved = 0;
  let best = 0;
  let split = 0;
  for (let d = 0; d < count; d++) {
    saved += costs[2 * d + 1]! - costs[2 * d]!;
    if (saved > best) {
      best = saved;
      split = d + 1;
    }
  }
  return split === 0 || split === count
    ? { lastDay_ms: before.lastDay_ms, firstDay_ms: after.firstDay_ms }
    : { lastDay_ms: days.day_ms[split - 1]!, firstDay_ms: days.day_ms[split]! };
}
