import { monthlyMeans } from './expectedMonths.ts';
import type { InventedYear, YearFrame } from './inventedYear.ts';

const DAY_H = 24;
const FORTNIGHT_DAYS = 14;
/** A day below this is called very dull: about half of what December brings on the average. */
const VERY_DULL_WH_M2 = 250;

/** What a year of weather comes to. Days of the year count from 0 = 1 January. */
export interface YearFacts {
  /** Mean irradiation of each month. */
  ghi_kWh_m2_day: number[];
  /** Expected mean irradiation of each month. */
  expected_kWh_m2_day: number[];
  /** Each month over its expected mean, no unit. */
  ofExpected: number[];
  year_kWh_m2: number;
  /** The year over its expected sum, no unit. */
  yearOfExpected: number;
  /** Mean of each month. */
  air_degC: number[];
  /** The fourteen days running with the least light. */
  darkestFortnight: { firstDay: number; mean_kWh_m2_day: number };
  /** The longest run of days below `VERY_DULL_WH_M2`. */
  longestDullRun: { firstDay: number; days: number };
}

/**
 * Monthly means, the darkest fortnight and the longest dull run of a year (kWh/m2 and degrees Celsius), within the
 * calendar year.
 *
 * in: year; frame, from `yearFrame`
 * out: as described
 */
export function describeYear(year: InventedYear, frame: YearFrame): YearFacts {
  const outside_W_m2 = monthlyMeans(frame.sun.extraterrestrial_W_m2);
  const expected_W_m2 = frame.clearness.map((clearness, month) => clearness * outside_W_m2[month]!);
  const ghi_W_m2 = monthlyMeans(year.ghi_W_m2);
  const expectedYear_Wh_m2 = frame.sun.extraterrestrial_W_m2.reduce(
    (sum, outside, hour) => sum + outside * frame.clearness[frame.monthOfDay[Math.floor(hour / DAY_H)]!]!,
    0,
  );
  const year_Wh_m2 = sum(year.ghi_W_m2);
  return {
    ghi_kWh_m2_day: ghi_W_m2.map(perDay),
    expected_kWh_m2_day: expected_W_m2.map(perDay),
    ofExpected: ghi_W_m2.map((got, month) => got / expected_W_m2[month]!),
    year_kWh_m2: year_Wh_m2 / 1000,
    yearOfExpected: year_Wh_m2 / expectedYear_Wh_m2,
    air_degC: monthlyMeans(year.air_degC),
    darkestFortnight: darkestFortnight(year.ghi_W_m2),
    longestDullRun: longestDullRun(year.ghi_W_m2),
  };
}

function perDay(mean_W_m2: number): number {
  return (mean_W_m2 * DAY_H) / 1000;
}

function darkestFortnight(ghi_W_m2: Float64Array): YearFacts['darkestFortnight'] {
  const length = FORTNIGHT_DAYS * DAY_H;
  let firstDay = 0;
  let least_Wh_m2 = Number.POSITIVE_INFINITY;
  for (let hour = 0; hour + length <= ghi_W_m2.length; hour += DAY_H) {
    const light_Wh_m2 = sum(ghi_W_m2.subarray(hour, hour + length));
    if (light_Wh_m2 < least_Wh_m2) {
      least_Wh_m2 = light_Wh_m2;
      firstDay = hour / DAY_H;
    }
  }
  return { firstDay, mean_kWh_m2_day: least_Wh_m2 / FORTNIGHT_DAYS / 1000 };
}

function longestDullRun(ghi_W_m2: Float64Array): YearFacts['longestDullRun'] {
  const longest = { firstDay: 0, days: 0 };
  let run = 0;
  for (let day = 0; day < ghi_W_m2.length / DAY_H; day++) {
    run = sum(ghi_W_m2.subarray(day * DAY_H, (day + 1) * DAY_H)) < VERY_DULL_WH_M2 ? run + 1 : 0;
    if (run > longest.days) {
      longest.days = run;
      longest.firstDay = day - run + 1;
    }
  }
  return longest;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
