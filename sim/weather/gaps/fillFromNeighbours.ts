import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { SunLight } from '../quality/SunLight.ts';
import { type Stretch, stretchesOf } from '../quality/stretchesOf.ts';

/** Most hours of daylight running that are filled by interpolation: longer ones hide whole showers and clearings. */
const LONGEST_SHORT_GAP_H = 3;
/** Least light outside the air that gives a clearness worth carrying on. */
const LEAST_OUTSIDE_W_M2 = 20;

/**
 * Fills short gaps of global irradiance: in the dark with 0, in up to 3 hours of daylight running with a clearness
 * index that goes straight from the hour before to the hour after; beside the night the one neighbour's is taken.
 *
 * in: ghi_W_m2, NaN missing, is written to; light, over the same hours
 * out: 1 for each hour filled; nothing brighter than the cleanest cloudless sky
 * valid: against hidden hours of a known year, see the tests
 */
export function interpolateClearness(ghi_W_m2: Float64Array, light: SunLight): Uint8Array {
  const filled = new Uint8Array(ghi_W_m2.length);
  const { upShare } = light.sun;
  const { outside_W_m2, cleanest_W_m2 } = light;
  const gaps = stretchesOf(ghi_W_m2.length, (i) => Number.isNaN(ghi_W_m2[i]!) && upShare[i]! > 0);
  const clearnessAt = (i: number): number =>
    (outside_W_m2[i] ?? 0) >= LEAST_OUTSIDE_W_M2 ? ghi_W_m2[i]! / outside_W_m2[i]! : Number.NaN;
  for (const { from, to } of gaps) {
    if (to - from > LONGEST_SHORT_GAP_H) continue;
    const before = clearnessAt(from - 1);
    const after = clearnessAt(to);
    if (Number.isNaN(before) && Number.isNaN(after)) continue;
    for (let i = from; i < to; i++) {
      const part = (i + 1 - from) / (to + 1 - from);
      const clearness = Number.isNaN(before)
        ? after
        : Number.isNaN(after)
          ? before
          : before + part * (after - before);
      ghi_W_m2[i] = Math.min(Math.max(clearness, 0) * outside_W_m2[i]!, cleanest_W_m2[i]!);
      filled[i] = 1;
    }
  }
  for (let i = 0; i < ghi_W_m2.length; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!) || upShare[i]! > 0) continue;
    ghi_W_m2[i] = 0;
    filled[i] = 1;
  }
  return filled;
}

/** Most days running that are filled from their neighbours. A longer gap stays one: a missing winter is not made up. */
const LONGEST_GAP_DAYS = 15;

/**
 * Fills daylight gaps of global irradiance from the nearest whole days: same hours, same clearness, so that the light
 * follows the season. The days of a gap are the days around it, mirrored at its edges, so that each whole day serves
 * once and bright and dull days stay as mixed as they were.
 *
 * in: ghi_W_m2, NaN missing, is written to; light, over the same hours; measured, 1 where the value was measured
 * out: 1 for each hour filled; gaps over more than 15 days are left
 */
export function fillFromDays(ghi_W_m2: Float64Array, light: SunLight, measured: Uint8Array): Uint8Array {
  const filled = new Uint8Array(ghi_W_m2.length);
  const days = daysOf(light);
  const isUp = (i: number): boolean => light.sun.upShare[i]! > 0;
  const every = (day: Stretch, holds: (i: number) => boolean): boolean => {
    for (let i = day.from; i < day.to; i++) if (isUp(i) && !holds(i)) return false;
    return true;
  };
  const whole = days.map((day) => day.to - day.from === 24 && every(day, (i) => measured[i] === 1));
  const needy = days.map((day) => !every(day, (i) => !Number.isNaN(ghi_W_m2[i]!)));
  const gaps = stretchesOf(days.length, (d) => needy[d]!);
  for (const gap of gaps) {
    if (gap.to - gap.from > LONGEST_GAP_DAYS) continue;
    const before = wholeDays(whole, gap.from, -1);
    const after = wholeDays(whole, gap.to - 1, 1);
    for (let d = gap.from; d < gap.to; d++) {
      const fromStart = before[d - gap.from];
      const fromEnd = after[gap.to - 1 - d];
      const nearer =
        d - (fromStart ?? Number.NEGATIVE_INFINITY) <= (fromEnd ?? Number.POSITIVE_INFINITY) - d
          ? fromStart
          : fromEnd;
      if (nearer === undefined) continue;
      copyDay(ghi_W_m2, light, days[d]!, days[nearer]!, filled);
    }
  }
  return filled;
}

/** Whole days from a day on in one direction, nearest first, as far as a gap may reach twice. */
function wholeDays(whole: readonly boolean[], from: number, step: -1 | 1): number[] {
  const found: number[] = [];
  for (let away = 1; away <= 2 * LONGEST_GAP_DAYS; away++) {
    const day = from + step * away;
    if (whole[day]) found.push(day);
  }
  return found;
}

function copyDay(
  ghi_W_m2: Float64Array,
  light: SunLight,
  day: Stretch,
  donor: Stretch,
  filled: Uint8Array,
): void {
  const { outside_W_m2, cleanest_W_m2 } = light;
  let ghi = 0;
  let outside = 0;
  for (let i = donor.from; i < donor.to; i++) {
    ghi += ghi_W_m2[i]!;
    outside += outside_W_m2[i]!;
  }
  const clearnessOfDay = outside > 0 ? ghi / outside : 0;
  // Days at the edges of a record may be short; hours are matched from the same midnight.
  const lag = Math.round((day.to - donor.to) / 24) * 24;
  for (let i = day.from; i < day.to; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!)) continue;
    const from = i - lag;
    const clearness =
      outside_W_m2[from]! >= LEAST_OUTSIDE_W_M2 ? ghi_W_m2[from]! / outside_W_m2[from]! : clearnessOfDay;
    ghi_W_m2[i] = Math.min(Math.max(clearness, 0) * outside_W_m2[i]!, cleanest_W_m2[i]!);
    filled[i] = 1;
  }
}

/** Hours of each day of the record; the first and the last may be short. */
function daysOf(light: SunLight): Stretch[] {
  const { start_ms, count } = light.sun;
  const since = (((start_ms + light.dayShift_ms) % DAY_MS) + DAY_MS) % DAY_MS;
  const first = Math.ceil((DAY_MS - since) / HOUR_MS);
  const days: Stretch[] = [];
  for (let from = 0, to = Math.min(first, count); from < count; from = to, to = Math.min(to + 24, count)) {
    days.push({ from, to });
  }
  return days;
}
