import { HOUR_MS } from '../../common/time.ts';
import type { WeatherReport } from '../importWeather.ts';
import type { HourlyColumns } from '../WeatherRecord.ts';
import type { SunLight } from './SunLight.ts';
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
    pictures: yearPicture(filled.columns, light, { filled: filled.filled }),
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
  /** Light outside the air in the hours with a value, over that of the month's hours in the record. */
  daylightCoverage: number;
  /** Hours of the month that were filled here. */
  filled_h: number;
  /** Hours of the month that somebody upstream had filled. */
  filledUpstream_h: number;
}

/** One calendar year of a record. */
export interface YearRow {
  year: number;
  /** Months with light measured. */
  months: number;
  /** Irradiation of the year; NaN where a month is absent. */
  ghi_kWh_m2: number;
  clearness: number;
  coverage: number;
  filled_h: number;
}

/** Which hours carry a number that was not measured. */
export interface NotMeasured {
  /** Filled here, 1 an hour. */
  filled?: Uint8Array;
  /** Filled by somebody upstream, 1 an hour. */
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
  columns: Pick<HourlyColumns, 'start_ms' | 'count' | 'ghi_W_m2'>,
  light: SunLight,
  notMeasured: NotMeasured = {},
): { months: MonthRow[]; years: YearRow[] } {
  const months: MonthRow[] = [];
  for (let i = 0; i < columns.count; ) {
    const date = new Date(columns.start_ms + light.dayShift_ms + i * HOUR_MS);
    const next_ms = Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 1);
    const hoursLeft = Math.ceil((next_ms - date.getTime()) / HOUR_MS);
    const to = Math.min(columns.count, i + hoursLeft);
    months.push(monthRow(columns, light, notMeasured, i, to));
    i = to;
  }
  const years = [...new Set(months.map((row) => row.month.slice(0, 4)))];
  return { months, years: years.map((year) => yearRow(year, months)) };
}

function monthRow(
  columns: Pick<HourlyColumns, 'start_ms' | 'ghi_W_m2'>,
  light: SunLight,
  notMeasured: NotMeasured,
  from: number,
  to: number,
): MonthRow {
  const date = new Date(columns.start_ms + light.dayShift_ms + from * HOUR_MS);
  const days = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate();
  const row = { hours: 0, ghi: 0, outsideThen: 0, outside: 0, filled: 0, upstream: 0 };
  for (let i = from; i < to; i++) {
    row.outside += light.outside_W_m2[i]!;
    row.filled += notMeasured.filled?.[i] ?? 0;
    row.upstream += notMeasured.filledUpstream?.[i] ?? 0;
    const value = columns.ghi_W_m2[i]!;
    if (Number.isNaN(value)) continue;
    row.hours++;
    row.ghi += value;
    row.outsideThen += light.outside_W_m2[i]!;
  }
  const daily = 24 / ((to - from) * 1000);
  // In the polar night nothing is due, and nothing is missing from it.
  const clearness = row.outside === 0 ? 0 : row.ghi / row.outsideThen;
  return {
    month: date.toISOString().slice(0, 7),
    ghi_kWh_m2_day: row.hours === 0 ? Number.NaN : clearness * row.outside * daily,
    outside_kWh_m2_day: row.outside * daily,
    clearness: row.outside === 0 ? Number.NaN : clearness,
    coverage: row.hours / (24 * days),
    daylightCoverage: row.outside === 0 ? Math.sign(row.hours) : row.outsideThen / row.outside,
    filled_h: row.filled,
    filledUpstream_h: row.upstream,
  };
}

function yearRow(year: string, months: readonly MonthRow[]): YearRow {
  const rows = months.filter((row) => row.month.startsWith(year));
  const present = rows.filter((row) => !Number.isNaN(row.ghi_kWh_m2_day));
  const daysOf = (row: MonthRow) =>
    new Date(Date.UTC(Number(year), Number(row.month.slice(5)), 0)).getUTCDate();
  const total = (list: readonly MonthRow[], value: (row: MonthRow) => number) =>
    list.reduce((sum, row) => sum + value(row) * daysOf(row), 0);
  const light = total(present, (row) => row.ghi_kWh_m2_day);
  return {
    year: Number(year),
    months: present.length,
    ghi_kWh_m2: present.length === 12 ? light : Number.NaN,
    clearness: light / total(present, (row) => row.outside_kWh_m2_day),
    coverage: total(rows, (row) => row.coverage) / (isLeap(Number(year)) ? 366 : 365),
    filled_h: rows.reduce((sum, row) => sum + row.filled_h, 0),
  };
}

function isLeap(year: number): boolean {
  return new Date(Date.UTC(year, 1, 29)).getUTCDate() === 29;
}
