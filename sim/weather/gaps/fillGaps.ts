import { HOUR_MS } from '../../common/time.ts';
import type { SunLight } from '../quality/SunLight.ts';
import { stretchesOf } from '../quality/stretchesOf.ts';
import { type HourlyColumns, WEATHER_MARKS } from '../WeatherRecord.ts';
import { fillFromDays, interpolateClearness } from './fillFromNeighbours.ts';

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

/**
 * Hours in which global irradiance is missing while direct and diffuse are there, closed from these two, in W/m2.
 *
 * in: columns, NaN missing, ghi_W_m2 is written to; light, over the same hours
 * out: 1 for each hour closed
 * source: ISO9488
 */
function closeGlobal(columns: HourlyColumns, light: SunLight): Uint8Array {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = columns;
  const closed = new Uint8Array(columns.count);
  if (dni_W_m2 === undefined || dhi_W_m2 === undefined) return closed;
  const { upCosZenith, upShare } = light.sun;
  for (let i = 0; i < columns.count; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!)) continue;
    const sum = dhi_W_m2[i]! + dni_W_m2[i]! * upCosZenith[i]! * upShare[i]!;
    if (Number.isNaN(sum)) continue;
    ghi_W_m2[i] = Math.max(sum, 0);
    closed[i] = 1;
  }
  return closed;
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
export interface MonthFill {
  /** 'YYYY-MM'. */
  month: string;
  /** Its hours in the record: from <= i < to. */
  from: number;
  to: number;
  /** Hours in which the sun is up at all. */
  daylight_h: number;
  filledDaylight_h: number;
  /** Hours of daylight that stay missing. */
  absentDaylight_h: number;
  /** whole: all measured; filled: a small share filled; much filled: to be accepted explicitly; absent: not usable. */
  state: 'whole' | 'filled' | 'much filled' | 'absent';
}

/**
 * What was filled of the daylight of each month of a record.
 *
 * in: ghi_W_m2, NaN where it stays missing; filled, 1 an hour; light, over the same hours
 * out: a row for every month from the first to the last
 */
function monthFills(ghi_W_m2: Float64Array, filled: Uint8Array, light: SunLight): MonthFill[] {
  const { start_ms, upShare } = light.sun;
  const months: MonthFill[] = [];
  for (let i = 0; i < ghi_W_m2.length; ) {
    const date = new Date(start_ms + light.dayShift_ms + i * HOUR_MS);
    const next_ms = Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 1);
    const to = Math.min(ghi_W_m2.length, i + Math.ceil((next_ms - date.getTime()) / HOUR_MS));
    const counts = { daylight_h: 0, filledDaylight_h: 0, absentDaylight_h: 0 };
    let missing = 0;
    for (let hour = i; hour < to; hour++) {
      const absent = Number.isNaN(ghi_W_m2[hour]!);
      if (absent) missing++;
      if (upShare[hour] === 0) continue;
      counts.daylight_h++;
      if (absent) counts.absentDaylight_h++;
      else counts.filledDaylight_h += filled[hour]!;
    }
    const share = counts.filledDaylight_h / counts.daylight_h;
    months.push({
      month: date.toISOString().slice(0, 7),
      from: i,
      to,
      ...counts,
      state: stateOf(missing, share),
    });
    i = to;
  }
  return months;
}

function stateOf(missing: number, share: number): MonthFill['state'] {
  if (missing > 0) return 'absent';
  if (share > LARGEST_FILLED_SHARE) return 'much filled';
  return share > 0 ? 'filled' : 'whole';
}
