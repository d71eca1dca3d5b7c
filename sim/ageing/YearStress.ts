import type { LampSection } from '../lamp/schema.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import type { CapacitorStress } from './CapacitorStress.ts';
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
const SHORTEST_YEAR_H = 8760;

/**
 * What hours are to the parts of a lamp. The part of a year that a record may end with is left out: it would weigh its
 * season too much.
 *
 * in: columns, of a year at least; lamp, its parts merged in
 */
export function yearStress(columns: YearColumns, { led }: LampSection): YearStress {
  const { count, capacitorEnd_V, jar_degC, led_C } = columns;
  const hours = Math.min(count, Math.floor(count / SHORTEST_YEAR_H) * YEAR_H);
  const years = hours / YEAR_H;
  const warm = jar_degC.subarray(0, hours);
  const lit = { led_C: led_C.subarray(0, hours), jar_degC: warm };
  return {
    capacitor: { bank_V: capacitorEnd_V.subarray(0, hours), degC: warm },
    years,
    led: ledWear(lit, ledRating(led), led.count) / years,
  };
}
