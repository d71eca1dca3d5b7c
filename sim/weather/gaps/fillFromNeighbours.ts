import { range } from 'd3-array';
import { daysOf, type SunLight } from '../quality/SunLight.ts';
import { type Stretch, stretchesOf } from '../quality/stretchesOf.ts';

/** Most hours of daylight running that are filled by interpolation: longer ones hide whole showers and clearings. */
const LONGEST_SHORT_GAP_H = 3;
/** Most days running that are filled from their neighbours. A longer gap stays one: a missing winter is not made up. */
const LONGEST_GAP_DAYS = 15;
/** Least light outside the air that gives a clearness worth carrying on. */
const LEAST_OUTSIDE_W_M2 = 20;

/** Light at a clearness, in W/m2, nothing brighter than the cleanest cloudless sky. */
function lightAt(light: SunLight, i: number, clearness: number): number {
  return Math.min(Math.max(clearness, 0) * light.outside_W_m2[i]!, light.cleanest_W_m2[i]!);
}

/** Clearness of an hour; NaN where little light is due, or none is there. */
function clearnessAt(ghi_W_m2: Float64Array, { outside_W_m2 }: SunLight, i: number): number {
  const outside = outside_W_m2[i] ?? 0;
  return outside >= LEAST_OUTSIDE_W_M2 ? ghi_W_m2[i]! / outside : Number.NaN;
}

/**
 * Fills short gaps of global irradiance: in the dark with 0, in up to 3 hours of daylight running with a clearness
 * index that goes straight from the hour before to the hour after; beside the night the one neighbour's is taken.
 *
 * in: ghi_W_m2, NaN missing, is written to; light, over the same hours
 * valid: against hidden hours of a known year, see the tests
 */
export function interpolateClearness(ghi_W_m2: Float64Array, light: SunLight): void {
  const { upShare } = light.sun;
  const isMissing = (i: number): boolean => Number.isNaN(ghi_W_m2[i]!);
  for (const { from, to } of stretchesOf(ghi_W_m2.length, (i) => isMissing(i) && upShare[i]! > 0)) {
    if (to - from > LONGEST_SHORT_GAP_H) continue;
    const before = clearnessAt(ghi_W_m2, light, from - 1);
    const after = clearnessAt(ghi_W_m2, light, to);
    const [start, end] = [Number.isNaN(before) ? after : before, Number.isNaN(after) ? before : after];
    for (let i = from; i < to; i++) {
      const part = (i + 1 - from) / (to + 1 - from);
      ghi_W_m2[i] = lightAt(light, i, start + part * (end - start));
    }
  }
  for (let i = 0; i < ghi_W_m2.length; i++) if (isMissing(i) && upShare[i] === 0) ghi_W_m2[i] = 0;
}

/**
 * Fills daylight gaps of global irradiance from the nearest whole days: same hours, same clearness, so that the light
 * follows the season. The days of a gap are the days around it, mirrored at its edges, so that each whole day serves
 * once and bright and dull days stay as mixed as they were.
 *
 * in: ghi_W_m2, NaN missing, is written to, but for gaps over more than 15 days; light, over the same hours;
 *   open, 1 where the value was not measured
 */
export function fillFromDays(ghi_W_m2: Float64Array, light: SunLight, open: Uint8Array): void {
  const days = daysOf(light);
  const daylight = days.map((day) => range(day.from, day.to).filter((i) => light.sun.upShare[i]! > 0));
  const isWhole = (d: number): boolean =>
    days[d] !== undefined && days[d].to - days[d].from === 24 && daylight[d]!.every((i) => open[i] === 0);
  for (const gap of stretchesOf(days.length, (d) => daylight[d]!.some((i) => Number.isNaN(ghi_W_m2[i]!)))) {
    if (gap.to - gap.from > LONGEST_GAP_DAYS) continue;
    const reach = range(1, 2 * LONGEST_GAP_DAYS + 1);
    const before = reach.map((away) => gap.from - away).filter(isWhole);
    const after = reach.map((away) => gap.to - 1 + away).filter(isWhole);
    for (let d = gap.from; d < gap.to; d++) {
      const fromStart = before[d - gap.from] ?? Number.NEGATIVE_INFINITY;
      const fromEnd = after[gap.to - 1 - d] ?? Number.POSITIVE_INFINITY;
      const donor = days[d - fromStart <= fromEnd - d ? fromStart : fromEnd];
      if (donor !== undefined) copyDay(ghi_W_m2, light, days[d]!, donor);
    }
  }
}

/** Fills what a day lacks with the clearness of another day's hours. */
function copyDay(ghi_W_m2: Float64Array, light: SunLight, day: Stretch, donor: Stretch): void {
  let ghi = 0;
  let outside = 0;
  for (let i = donor.from; i < donor.to; i++) {
    ghi += ghi_W_m2[i]!;
    outside += light.outside_W_m2[i]!;
  }
  const clearnessOfDay = outside > 0 ? ghi / outside : 0;
  // The first day of a record may lack its begin, the last one its end.
  const lag = day.from === 0 ? day.to - donor.to : day.from - donor.from;
  for (let i = day.from; i < day.to; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!)) continue;
    const clearness = clearnessAt(ghi_W_m2, light, i - lag);
    ghi_W_m2[i] = lightAt(light, i, Number.isNaN(clearness) ? clearnessOfDay : clearness);
  }
}
