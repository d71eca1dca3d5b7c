import { HOUR_MS } from '../common/time.ts';
import { civilDays } from '../night/nightDays.ts';
import type { Trial } from './Trial.ts';

/** Light on a cell in one calendar month, a mean day of all years of the record. */
export interface LightMonth {
  month: number;
  /** Whole days that went into it. */
  days: number;
  lightOnCell_Wh_m2_day: number;
  beam_Wh_m2_day: number;
  sky_Wh_m2_day: number;
  reflected_Wh_m2_day: number;
  /** Global horizontal irradiation on level ground; NaN where the light was logged on the cell. */
  ghi_Wh_m2_day: number;
  /** Light on the cell over the open horizontal. */
  shareOfOpen: number;
}

/**
 * The light of a trial's spot by calendar month, parts and whole, Wh/m2 a day; days are civil days.
 *
 * in: trial; timeZone, IANA name; months, those wanted, in their order
 * out: one entry a month; values are NaN where the record has no whole day of it
 */
export function monthlyLight(trial: Trial, timeZone: string, months: readonly number[]): LightMonth[] {
  const { light, year, nights } = trial;
  const midnights_ms = civilDays(light.nights, timeZone);
  const sums = new Map(
    months.map((month) => [month, { days: 0, cell: 0, beam: 0, sky: 0, back: 0, ghi: 0 }]),
  );
  for (let n = 0; n < nights.length; n++) {
    const row = nights[n]!;
    const sum = sums.get(Number(row.night.slice(5, 7)));
    if (sum === undefined || !row.complete) continue;
    sum.days++;
    const hourAt = (k: number) => Math.ceil((midnights_ms[k]! - light.start_ms) / HOUR_MS - 1e-9);
    const k = year.firstNight + n;
    for (let hour = hourAt(k); hour < hourAt(k + 1); hour++) {
      if (!year.joined && (hour < 0 || hour >= light.count)) continue;
      const i = (hour + light.count) % light.count;
      sum.cell += light.planeOfArray_W_m2[i]!;
      sum.beam += light.beam_W_m2[i]!;
      sum.sky += light.sky_W_m2[i]!;
      sum.back += light.reflected_W_m2[i]!;
      sum.ghi += light.ghi_W_m2[i]!;
    }
  }
  return [...sums].map(([month, { days, cell, beam, sky, back, ghi }]) => ({
    month,
    days,
    lightOnCell_Wh_m2_day: cell / days,
    beam_Wh_m2_day: beam / days,
    sky_Wh_m2_day: sky / days,
    reflected_Wh_m2_day: back / days,
    ghi_Wh_m2_day: ghi / days,
    shareOfOpen: cell / ghi,
  }));
}

/**
 * The calendar months, 1 to 12, with the dark ones in the middle: July to June north of the equator, January to
 * December south of it.
 *
 * in: southern
 * @example seasonMonths(true); // => [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
 */
export function seasonMonths(southern: boolean): number[] {
  return Array.from({ length: 12 }, (_, k) => (southern ? k + 1 : ((k + 6) % 12) + 1));
}
