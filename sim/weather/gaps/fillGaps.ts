import type { HourlyColumns } from '../quality/HourlyColumns.ts';
import type { SunLight } from '../quality/SunLight.ts';
import { stretchesOf } from '../quality/stretchesOf.ts';
import { WEATHER_MARKS } from '../WeatherRecord.ts';
import { closeGlobal } from './closeGlobal.ts';
import { fillFromDays } from './fillFromDays.ts';
import { interpolateClearness } from './interpolateClearness.ts';
import { LARGEST_ACCEPTED_SHARE, type MonthFill, monthFills } from './monthFills.ts';

/** A record with its gaps filled as far as may be. */
export interface FilledColumns {
  /** A copy. ghi_W_m2 is NaN in hours that stay missing; dni and dhi are NaN wherever they were or global was filled. */
  columns: HourlyColumns;
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

/**
 * Fills the gaps of a record's light: closed from direct and diffuse where these are there, short ones by clearness,
 * longer ones from the nearest whole days. What is longer than 15 days stays missing, and so does a month more than
 * half of whose daylight would be filled.
 *
 * in: columns after the quality checks, NaN missing; light, over the same hours
 * out: a filled copy, marked hour by hour, with the share filled of each month
 * valid: months within the share that stands without acceptance keep their irradiation within some 5 percent
 */
export function fillGaps(columns: HourlyColumns, light: SunLight): FilledColumns {
  const { count } = columns;
  const ghi_W_m2 = Float64Array.from(columns.ghi_W_m2);
  const filledColumns: HourlyColumns = { ...columns, ghi_W_m2 };
  const closed = closeGlobal(filledColumns, light);
  const measured = Uint8Array.from(ghi_W_m2, (value) => (Number.isNaN(value) ? 0 : 1));
  const short = interpolateClearness(ghi_W_m2, light);
  const long = fillFromDays(ghi_W_m2, light, measured);
  const filled = short.map((flag, i) => flag | long[i]!);
  const attempt = monthFills(ghi_W_m2, filled, light);
  for (const month of attempt) {
    if (month.filledDaylight_h <= LARGEST_ACCEPTED_SHARE * month.daylight_h) continue;
    for (let i = month.from; i < month.to; i++) {
      if (filled[i] === 0 || light.sun.upShare[i] === 0) continue;
      ghi_W_m2[i] = Number.NaN;
      filled[i] = 0;
    }
  }
  // A night inside a gap that stays is missing with it: an absent month is absent, not dark.
  const gaps = stretchesOf(count, (i) => measured[i] === 0);
  for (const { from, to } of gaps) {
    if (!ghi_W_m2.subarray(from, to).some(Number.isNaN)) continue;
    for (let i = from; i < to; i++) {
      if (light.sun.upShare[i] !== 0) continue;
      ghi_W_m2[i] = Number.NaN;
      filled[i] = 0;
    }
  }
  const mark = new Uint8Array(count);
  const result = { interpolated_h: 0, fromDays_h: 0, dark_h: 0, absent_h: 0 };
  const dni_W_m2 = columns.dni_W_m2 && Float64Array.from(columns.dni_W_m2);
  const dhi_W_m2 = columns.dhi_W_m2 && Float64Array.from(columns.dhi_W_m2);
  for (let i = 0; i < count; i++) {
    const absent = Number.isNaN(ghi_W_m2[i]!);
    if (closed[i]) mark[i] = CLOSED;
    if (!absent && filled[i] === 0) continue;
    mark[i] = FILLED;
    if (absent) result.absent_h++;
    else if (long[i]) result.fromDays_h++;
    else if (light.sun.upShare[i]! > 0) result.interpolated_h++;
    else result.dark_h++;
    if (dni_W_m2 !== undefined) dni_W_m2[i] = Number.NaN;
    if (dhi_W_m2 !== undefined) dhi_W_m2[i] = Number.NaN;
  }
  if (dni_W_m2 !== undefined) filledColumns.dni_W_m2 = dni_W_m2;
  if (dhi_W_m2 !== undefined) filledColumns.dhi_W_m2 = dhi_W_m2;
  return { columns: filledColumns, mark, filled, ...result, months: monthFills(ghi_W_m2, filled, light) };
}

const CLOSED = WEATHER_MARKS.indexOf('closed');
const FILLED = WEATHER_MARKS.indexOf('filled');
