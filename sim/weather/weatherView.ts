import type { WeatherReport } from './importWeather.ts';
import { type MonthRow, monthlyTable, type YearRow } from './quality/monthlyTable.ts';
import { type YearPicture, yearPicture } from './quality/yearPicture.ts';

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
