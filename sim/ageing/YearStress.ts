import type { LampSection } from '../lamp/schema.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { type CapacitorStress, stressOf } from './CapacitorStress.ts';
import { ledRating, ledWear } from './ledFade.ts';

/** What a lamp's hours are to its parts. */
export interface YearStress {
  capacitor: CapacitorStress;
  /** That the hours last. */
  years: number;
  /** Share of its rated life that an LED spends in a year. */
  led: number;
}

const YEAR_H = 8766;

/** What hours are to the parts of a lamp. in: columns, of whole years; lamp, its parts merged in */
export function yearStress(columns: YearColumns, { led }: LampSection): YearStress {
  const years = columns.count / YEAR_H;
  return {
    capacitor: stressOf(columns),
    years,
    led: ledWear(columns, ledRating(led), led.count) / years,
  };
}
