import { sum } from 'd3-array';
import { type Month, monthsOf, type SunLight } from '../quality/SunLight.ts';
import { flagsOf, type Stretch, stretchesFlagged } from '../quality/stretchesOf.ts';
import { type HourlyColumns, hoursWithin, WEATHER_MARKS } from '../WeatherRecord.ts';
import { fillFromDays, interpolateClearness } from './fillFromNeighbours.ts';

/**
 * A record with its gaps filled as far as may be. ghi_W_m2 is NaN in hours that stay missing; dni and dhi are NaN
 * wherever they were or global was filled.
 */
export interface FilledColumns extends HourlyColumns {
  /** Index into WEATHER_MARKS of each hour; hours that stay missing are marked 'filled' and have no value. */
  mark: Uint8Array;
  /** 1 where an hour was filled. */
  filled: Uint8Array;
  /** Hours of daylight filled by clearness between neighbours, and from whole days; hours of darkness set to 0. */
  interpolated_h: number;
  fromDays_h: number;
  dark_h: number;
  /** Hours that stay missing, in gaps too long to fill or in months of which most would be filled. */
  absent_h: number;
  months: MonthFill[];
}

const CLOSED = WEATHER_MARKS.indexOf('closed');
const FILLED = WEATHER_MARKS.indexOf('filled');
const NOT_MEASURED: readonly number[] = [FILLED, WEATHER_MARKS.indexOf('stand-in')];

/**
 * Fills the gaps of a record's light: closed from direct and diffuse where these are there, short ones by clearness,
 * longer ones from the nearest whole days. What is longer than 15 days stays missing, and so does a month more than
 * half of whose daylight would be filled.
 *
 * in: columns after the quality checks, NaN missing; light, over the same hours; rests, index into WEATHER_MARKS of what
 *   each value rested on before, 'measured' by default: an hour filled then counts as filled now; what was accepted then
 *   is not asked again, so months are judged by what is filled here
 * out: a filled copy, marked hour by hour, with the share filled of each month
 * valid: months within the share that stands without acceptance keep their irradiation within some 5 percent
 */
export function fillGaps(
  columns: HourlyColumns,
  light: SunLight,
  rests: Uint8Array = new Uint8Array(columns.count),
): FilledColumns {
  const copy = hoursWithin(columns, 0, columns.count);
  const { count, ghi_W_m2 } = copy;
  const missing = (): Uint8Array => flagsOf(count, (i) => Number.isNaN(ghi_W_m2[i]!));
  const given = missing();
  closeGlobal(copy, light);
  const open = missing();
  interpolateClearness(ghi_W_m2, light);
  const long = missing();
  fillFromDays(ghi_W_m2, light, open);
  leaveMissing(ghi_W_m2, open, light);
  const absent = missing();
  for (const { from, to } of stretchesFlagged(open)) {
    for (const values of [copy.dni_W_m2, copy.dhi_W_m2]) values?.fill(Number.NaN, from, to);
  }
  const filledWhere = (holds: (i: number) => boolean): number =>
    sum(flagsOf(count, (i) => open[i] === 1 && absent[i] === 0 && holds(i)));
  const isUp = (i: number): boolean => light.sun.upShare[i]! > 0;
  return {
    ...copy,
    mark: given.map((flag, i) => (open[i] === 1 ? FILLED : flag === 1 ? CLOSED : rests[i]!)),
    filled: flagsOf(count, (i) => absent[i] === 0 && (open[i] === 1 || NOT_MEASURED.includes(rests[i]!))),
    interpolated_h: filledWhere((i) => long[i] === 0 && isUp(i)),
    fromDays_h: filledWhere((i) => long[i] === 1),
    dark_h: filledWhere((i) => long[i] === 0 && !isUp(i)),
    absent_h: sum(absent),
    months: monthFills(ghi_W_m2, open, light),
  };
}

/**
 * Closes global irradiance from direct and diffuse in hours in which these are there and it is not, in W/m2.
 *
 * in: columns, NaN missing, ghi_W_m2 is written to; light, over the same hours
 * source: ISO9488
 */
function closeGlobal({ ghi_W_m2, dni_W_m2, dhi_W_m2 }: HourlyColumns, light: SunLight): void {
  if (dni_W_m2 === undefined || dhi_W_m2 === undefined) return;
  const { upCosZenith, upShare } = light.sun;
  for (let i = 0; i < ghi_W_m2.length; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!)) continue;
    ghi_W_m2[i] = Math.max(dhi_W_m2[i]! + dni_W_m2[i]! * upCosZenith[i]! * upShare[i]!, 0);
  }
}

/** Takes back what was filled of months that would be made up for the most part, and of nights in gaps that stay. */
function leaveMissing(ghi_W_m2: Float64Array, open: Uint8Array, light: SunLight): void {
  const takeBack = ({ from, to }: Stretch, ofDaylight: boolean): void => {
    for (let i = from; i < to; i++) {
      if (open[i] === 1 && light.sun.upShare[i]! > 0 === ofDaylight) ghi_W_m2[i] = Number.NaN;
    }
  };
  for (const month of monthFills(ghi_W_m2, open, light)) {
    if (month.filledDaylight_h > LARGEST_ACCEPTED_SHARE * month.daylight_h) takeBack(month, true);
  }
  // A night inside a gap that stays is missing with it: an absent month is absent, not dark.
  for (const gap of stretchesFlagged(open)) {
    if (ghi_W_m2.subarray(gap.from, gap.to).some(Number.isNaN)) takeBack(gap, false);
  }
}

/**
 * Share of a month's hours of daylight that may be filled without being accepted explicitly. Three days in 31: with
 * daily clearness in December scattering by 0.7 of its mean, as it does at 58 degrees north, that moves the month's
 * light by some 5 percent (0.7 times the root of 2 times 3, over 31), what a well-kept sensor is wrong by. It counts
 * month by month, for it is December that decides, and a year's share would hide it.
 */
export const LARGEST_FILLED_SHARE = 0.1;
/** Share above which a month stays absent, accepted or not: most of it would be made up. */
const LARGEST_ACCEPTED_SHARE = 0.5;

/** What was filled of one month. */
export interface MonthFill extends Month {
  /** Hours in which the sun is up at all. */
  daylight_h: number;
  filledDaylight_h: number;
  /** Hours of daylight that stay missing. */
  absentDaylight_h: number;
  /** whole: all measured; filled: a small share filled; much filled: to be accepted explicitly; absent: not usable. */
  state: 'whole' | 'filled' | 'much filled' | 'absent';
}

/** What was filled of the daylight of each month, of hours that were open; NaN where they stay missing. */
function monthFills(ghi_W_m2: Float64Array, open: Uint8Array, light: SunLight): MonthFill[] {
  return monthsOf(light).map((month) => {
    const counts = { daylight_h: 0, filledDaylight_h: 0, absentDaylight_h: 0 };
    for (let i = month.from; i < month.to; i++) {
      if (light.sun.upShare[i] === 0) continue;
      counts.daylight_h++;
      if (Number.isNaN(ghi_W_m2[i]!)) counts.absentDaylight_h++;
      else counts.filledDaylight_h += open[i]!;
    }
    const share = counts.filledDaylight_h / counts.daylight_h;
    const absent = ghi_W_m2.subarray(month.from, month.to).some(Number.isNaN);
    const much = share > LARGEST_FILLED_SHARE ? 'much filled' : 'filled';
    return { ...month, ...counts, state: absent ? 'absent' : share > 0 ? much : 'whole' };
  });
}
