import { cumsum, maxIndex, min, minIndex } from 'd3-array';
import { DAY_MS } from '../../common/time.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { type FoldedSeries, foldSeries, type SunSeries } from './foldSeries.ts';
import { FIRST_LOOK_MIN, negativeLogLikelihood, sumOfDays, wrapped } from './negativeLogLikelihood.ts';

/** A stretch of days under one convention of stamps. */
export interface Segment {
  /** Days looked at, first .. last, both within. */
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

/**
 * Stretches of days within which the stamps keep one offset (minutes), in order of time: one where the convention
 * never changes. The path of least cost through day and offset, each change costing as much as 25 units of
 * log-likelihood; then every stretch is read closely and like neighbours are joined.
 *
 * in: folded; look, the first look at its days
 * out: the stretches, covering all days; none where there are no days
 * valid: changes of 22 minutes or more that last a fortnight or more
 * source: Viterbi1967
 */
export function findSegments(folded: FoldedSeries, look: readonly Float64Array[]): Segment[] {
  const count = folded.days.length;
  if (count === 0) return [];
  const segmentOf = (first: number, last: number): Segment => {
    const days = folded.days.slice(first, last + 1);
    return { first, last, reading: estimateClockOffset({ ...folded, days }, look.slice(first, last + 1)) };
  };
  const bounds = changeDays(look);
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
function changeDays(look: readonly Float64Array[]): number[] {
  let total = look[0]!;
  const from = look.slice(1).map((costs) => {
    const best = minIndex(total);
    const changed = total[best]! + CHANGE_COST;
    const before = total.map((cost, j) => (changed < cost ? best : j));
    total = total.map((cost, j) => Math.min(changed, cost) + costs[j]!);
    return before;
  });
  const first = [0];
  let state = minIndex(total);
  for (let d = look.length - 1; d > 0; d--) {
    const before = from[d - 1]![state]!;
    if (Math.abs(wrapped((state - before) * FIRST_LOOK_MIN)) > FIRST_LOOK_MIN) first.push(d);
    state = before;
  }
  return first.sort((a, b) => a - b);
}

/** How well founded a change is, by the offsets and by the cost it saves to the days on either side; 1 is enough. */
function worthOf(look: readonly Float64Array[], a: Segment, b: Segment): number {
  const before = sumOfDays(look.slice(Math.max(a.first, b.first - SIDE_DAYS), b.first));
  const after = sumOfDays(look.slice(b.first, Math.min(b.last + 1, b.first + SIDE_DAYS)));
  const saved = min(before, (cost, j) => cost + after[j]!)! - min(before)! - min(after)!;
  const apart_min = Math.abs(wrapped(a.reading.offset_min - b.reading.offset_min));
  return Math.min(apart_min / LEAST_CHANGE_MIN, saved / CHANGE_COST);
}

/**
 * Segments (offsets in minutes) by date, with the days of their changes looked for among all days of the series, of
 * which only every few were looked at where it is long.
 *
 * in: series; folded; segments of the days looked at
 * out: days as by the stamps
 */
export function placeSegments(
  series: SunSeries,
  { days, allDays }: FoldedSeries,
  segments: readonly Segment[],
): ClockSegment[] {
  const list = segments.map(({ first, last, reading }) => ({
    firstDay_ms: days[first]!.ms,
    lastDay_ms: days[last]!.ms,
    reading,
  }));
  if (days.length < allDays.length)
    for (const [k, after] of list.slice(1).entries()) placeChange(series, list[k]!, after);
  return list;
}

/** Sets the last day before a change and the first after it, by the days about it, folded by themselves. */
function placeChange(series: SunSeries, before: ClockSegment, after: ClockSegment): void {
  const from_ms = Math.max(before.firstDay_ms, before.lastDay_ms - MARGIN_DAYS * DAY_MS);
  const to_ms = Math.min(after.lastDay_ms, after.firstDay_ms + MARGIN_DAYS * DAY_MS) + DAY_MS;
  const near = (column: Float64Array) =>
    column.filter((_, i) => series.stamp_ms[i]! >= from_ms && series.stamp_ms[i]! < to_ms);
  const folded = foldSeries({ ...series, stamp_ms: near(series.stamp_ms), ghi_W_m2: near(series.ghi_W_m2) });
  const { days } = folded;
  const costs = negativeLogLikelihood(folded, [before.reading.offset_min, after.reading.offset_min]);
  // What a change after each of the days saves, against none.
  const saved = cumsum(costs, ([same, changed]) => changed! - same!);
  const last = maxIndex(saved);
  if (!(saved[last]! > 0) || last === days.length - 1) return;
  before.lastDay_ms = days[last]!.ms;
  after.firstDay_ms = days[last + 1]!.ms;
}
