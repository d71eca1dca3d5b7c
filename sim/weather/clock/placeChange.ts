import { DAY_MS } from '../../common/time.ts';
import type { ClockReading } from './ClockReading.ts';
import { foldSeries } from './foldSeries.ts';
import { negativeLogLikelihood } from './negativeLogLikelihood.ts';
import type { SunSeries } from './SunSeries.ts';

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
