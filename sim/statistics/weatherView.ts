import type { WeatherReport } from '../weather/importWeather.ts';
import { type Month, monthsOf, type SunLight } from '../weather/quality/SunLight.ts';
import type { HourlyColumns } from '../weather/WeatherRecord.ts';
import { type YearPicture, yearPicture } from './yearPicture.ts';

/** What a report of a weather file shows in tables and pictures. */
export interface WeatherView {
  months: MonthRow[];
  years: YearRow[];
  pictures: YearPicture[];
}

/**
 * Tables and pictures of a weather file that was understood: the light by month and year after the checks, before
 * gaps were filled, and the years as pictures with the filled hours marked.
 *
 * in: report
 */
export function weatherView({ quality, filled }: WeatherReport): WeatherView {
  const { light, columns, filledUpstream } = quality;
  return {
    ...monthlyTable(columns, light, { filled: filled.filled, filledUpstream }),
    pictures: yearPicture(filled, light),
  };
}

/** One month of a record, by its own midnights where these are near the sun's. */
export interface MonthRow {
  /** 'YYYY-MM'. */
  month: string;
  /** Mean daily irradiation; NaN where the month has no light measured. */
  ghi_kWh_m2_day: number;
  /** Mean daily irradiation outside the air over the month's hours in the record. */
  outside_kWh_m2_day: number;
  /** Irradiation over that outside the air, in the hours with a value. */
  clearness: number;
  /** Hours with a value over all hours of the calendar month. */
  coverage: number;
  /** Hours of the month that were filled here. */
  filled_h: number;
  /** Hours of the month that somebody upstream had filled. */
  filledUpstream_h: number;
}

/** One calendar year of a record. */
export interface YearRow {
  year: number;
  /** Irradiation of the year; NaN where a month is absent. */
  ghi_kWh_m2: number;
  clearness: number;
  coverage: number;
  filled_h: number;
}

/** Which hours carry a number that was not measured, 1 an hour. */
interface NotMeasured {
  /** Filled here. */
  filled?: Uint8Array;
  /** Filled by somebody upstream. */
  filledUpstream?: Uint8Array;
}

/**
 * Light month by month, kWh/m2 a day, with coverage and clearness, and year by year. A month with some hours missing
 * is carried up by its clearness, so that a gap neither darkens nor brightens it; one without hours is NaN, not zero.
 *
 * in: columns, NaN missing; light, over the same hours; notMeasured, hours to count
 * out: a row for every month from the first to the last of the record, and for every year
 */
export function monthlyTable(
  columns: Pick<HourlyColumns, 'ghi_W_m2'>,
  light: SunLight,
  notMeasured: NotMeasured = {},
): { months: MonthRow[]; years: YearRow[] } {
  const months = monthsOf(light).map((month) => monthRow(columns.ghi_W_m2, light, notMeasured, month));
  const years = [...new Set(months.map((row) => row.month.slice(0, 4)))];
  return { months, years: years.map((year) => yearRow(year, months)) };
}

function monthRow(
  ghi_W_m2: Float64Array,
  light: SunLight,
  { filled, filledUpstream }: NotMeasured,
  { month, from, to }: Month,
): MonthRow {
  const sums = { hours: 0, ghi: 0, outsideThen: 0, outside: 0, filled: 0, upstream: 0 };
  for (let i = from; i < to; i++) {
    sums.outside += light.outside_W_m2[i]!;
    sums.filled += filled?.[i] ?? 0;
    sums.upstream += filledUpstream?.[i] ?? 0;
    if (Number.isNaN(ghi_W_m2[i]!)) continue;
    sums.hours++;
    sums.ghi += ghi_W_m2[i]!;
    sums.outsideThen += light.outside_W_m2[i]!;
  }
  const outside_kWh_m2_day = (sums.outside * 24) / ((to - from) * 1000);
  const clearness = sums.outside === 0 ? Number.NaN : sums.ghi / sums.outsideThen;
  // In the polar night nothing is due, and nothing is missing from it.
  const ghi_kWh_m2_day = sums.outside === 0 ? 0 : clearness * outside_kWh_m2_day;
  return {
    month,
    ghi_kWh_m2_day: sums.hours === 0 ? Number.NaN : ghi_kWh_m2_day,
    outside_kWh_m2_day,
    clearness,
    coverage: sums.hours / (24 * daysIn(month)),
    filled_h: sums.filled,
    filledUpstream_h: sums.upstream,
  };
}

function yearRow(year: string, months: readonly MonthRow[]): YearRow {
  const rows = months.filter((row) => row.month.startsWith(year));
  const present = rows.filter((row) => !Number.isNaN(row.ghi_kWh_m2_day));
  const total = (list: readonly MonthRow[], value: (row: MonthRow) => number) =>
    list.reduce((sum, row) => sum + value(row) * daysIn(row.month), 0);
  const light = total(present, (row) => row.ghi_kWh_m2_day);
  return {
    year: Number(year),
    ghi_kWh_m2: present.length === 12 ? light : Number.NaN,
    clearness: light / total(present, (row) => row.outside_kWh_m2_day),
    coverage: total(rows, (row) => row.coverage) / (337 + daysIn(`${year}-02`)),
    filled_h: rows.reduce((sum, row) => sum + row.filled_h, 0),
  };
}

/** Days of a calendar month, 'YYYY-MM'. */
function daysIn(month: string): number {
  return new Date(Date.UTC(Number(month.slice(0, 4)), Number(month.slice(5)), 0)).getUTCDate();
}
