import { minIndex, range } from 'd3-array';
import { DAY_MS } from '../../common/time.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { type FoldedDays, foldSeries, type SunSeries, someDays } from './foldSeries.ts';
import {
  columnSums,
  FIRST_LOOK,
  FIRST_LOOK_MIN,
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

/** A stretch of the series under one convention of stamps. */
export interface ClockSegment {
  /** Start of its first and of its last day by the stamps, UTC milliseconds, to a day or two. */
  firstDay_ms: number;
  lastDay_ms: number;
  reading: ClockReading;
}

/** Cost that a change of convention must save before it is accepted. */
const CHANGE_COST = 25;
/** Conventions closer than this are the same one: seasons move the balance of a day by as much. */
const LEAST_CHANGE_MIN = 22;
/** Days looked at on either side of a change, to tell whether it is one. */
const SIDE_DAYS = 200;
/** The same, to place it. */
const MARGIN_DAYS = 15;
const WIDTH = FIRST_LOOK.length;

/**
 * Stretches of days within which the stamps keep one offset (minutes), in order of time: one where the convention
 * never changes. The path of least cost through day and offset, each change costing as much as 25 units of
 * log-likelihood; then every stretch is read closely and like neighbours are joined.
 *
 * in: days, as folded; look, the first look at them
 * out: the stretches, covering all days; none where there are no days
 * valid: changes of 22 minutes or more that last a fortnight or more
 * source: Viterbi1967
 */
export function findSegments(days: FoldedDays, look: Float64Array): Segment[] {
  const count = days.day_ms.length;
  if (count === 0) return [];
  const segmentOf = (first: number, last: number): Segment => {
    const part = someDays(days, range(first, last + 1));
    const reading = estimateClockOffset(part, look.subarray(first * WIDTH, (last + 1) * WIDTH));
    return { first, last, reading };
  };
  const bounds = changeDays(look, count);
  const list = bounds.map((first, k) => segmentOf(first, (bounds[k + 1] ?? count) - 1));
  // Neighbours that are alike, or whose days on either side of the change gain too little by it, are joined.
  while (list.length > 1) {
    const worth = list.slice(1).map((after, k) => worthOf(look, list[k]!, after));
    const least = minIndex(worth);
    if (worth[least]! >= 1) break;
    list.splice(least, 2, segmentOf(list[least]!.first, list[least + 1]!.last));
  }
  return list;
}

/** First days of the stretches on the cheapest path; steps of one place of the first look are no change. */
function changeDays(look: Float64Array, count: number): number[] {
  const from = new Int16Array(count * WIDTH);
  let total = look.slice(0, WIDTH);
  for (let d = 1; d < count; d++) {
    const best = minIndex(total);
    const changed = total[best]! + CHANGE_COST;
    total = total.map((cost, j) => {
      from[d * WIDTH + j] = changed < cost ? best : j;
      return Math.min(changed, cost) + look[d * WIDTH + j]!;
    });
  }
  const first = [0];
  let state = minIndex(total);
  for (let d = count - 1; d > 0; d--) {
    const before = from[d * WIDTH + state]!;
    if (Math.abs(wrapped((state - before) * FIRST_LOOK_MIN)) > FIRST_LOOK_MIN) first.push(d);
    state = before;
  }
  return first.sort((a, b) => a - b);
}

/** How well founded a change is, by the offsets and by the cost it saves to the days on either side; 1 is enough. */
function worthOf(look: Float64Array, a: Segment, b: Segment): number {
  const sums = (first: number, end: number) => columnSums(look.subarray(first * WIDTH, end * WIDTH), WIDTH);
  const before = sums(Math.max(a.first, b.first - SIDE_DAYS), b.first);
  const after = sums(b.first, Math.min(b.last + 1, b.first + SIDE_DAYS));
  const least = (costs: Float64Array) => costs[minIndex(costs)]!;
  const saved = least(before.map((cost, j) => cost + after[j]!)) - least(before) - least(after);
  const apart_min = Math.abs(wrapped(a.reading.offset_min - b.reading.offset_min));
  return Math.min(apart_min / LEAST_CHANGE_MIN, saved / CHANGE_COST);
}

/**
 * Segments (offsets in minutes) by date, with the days of their changes looked for among all days of the series, of
 * which only every few were folded where it is long.
 *
 * in: series; days, as folded; segments of them
 * out: days as by the stamps; those of the folded ones where the days between hold nothing
 */
export function placeSegments(series: SunSeries, days: FoldedDays, segments: Segment[]): ClockSegment[] {
  const list = segments.map(({ first, last, reading }) => ({
    firstDay_ms: days.day_ms[first]!,
    lastDay_ms: days.day_ms[last]!,
    reading,
  }));
  if (days.day_ms.length < days.usableDays) {
    for (let k = 0; k + 1 < list.length; k++) placeChange(series, list[k]!, list[k + 1]!);
  }
  return list;
}

/** Sets the last day before a change and the first after it. */
function placeChange(series: SunSeries, before: ClockSegment, after: ClockSegment): void {
  const from_ms = Math.max(before.firstDay_ms, before.lastDay_ms - MARGIN_DAYS * DAY_MS);
  const to_ms = Math.min(after.lastDay_ms, after.firstDay_ms + MARGIN_DAYS * DAY_MS) + DAY_MS;
  const near = (column: Float64Array) =>
    column.filter((_, i) => series.stamp_ms[i]! >= from_ms && series.stamp_ms[i]! < to_ms);
  const days = foldSeries({ ...series, stamp_ms: near(series.stamp_ms), ghi_W_m2: near(series.ghi_W_m2) });
  const count = days.day_ms.length;
  const offsets = [before.reading.offset_min, after.reading.offset_min];
  const costs = negativeLogLikelihood(days, offsets);
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
  if (split === 0 || split === count) return;
  before.lastDay_ms = days.day_ms[split - 1]!;
  after.firstDay_ms = days.day_ms[split]!;
}
