import { airTemperature } from '../../sim/climate/airTemperature.ts';
import {
  bendt,
  type ClearnessDistribution,
  highestClearness,
} from '../../sim/climate/ClearnessDistribution.ts';
import { hourlyIrradiance } from '../../sim/climate/hourlyIrradiance.ts';
import { type SkyHours, skyHours } from '../../sim/climate/SkyHours.ts';
import { type CsvColumn, csvText, fixed } from '../../sim/common/csvText.ts';
import { randomStream } from '../../sim/common/random.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { type ClearnessSequence, dailyClearness } from './dailyClearness.ts';
import { expectedClearness } from './expectedMonths.ts';
import { inventedAir } from './inventedAir.ts';
import { PERSISTENCE } from './publishedMonths.ts';

const START_MS = Date.UTC(2025, 0, 1);
const DAYS = 365;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Where the invented garden lies. */
export const INVENTED_PLACE = { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 };

/** See `chooseSeed.ts` for the rule that picked it. */
export const INVENTED_SEED = 305;

/** Clearest air of an hour, as a share of the light outside it. */
const CLEAREST_SHARE = 0.75;

/** Share of the cleanest sky's daily sum that the brightest day reaches: hours must have room to differ. */
const BRIGHTEST_SHARE = 0.97;

/** What is the same for every seed. */
export interface YearFrame {
  sun: SkyHours;
  /** Mean clearness of each month. */
  clearness: number[];
  /** Month of each day, 0 = January. */
  monthOfDay: number[];
  /** Of each day, 0 = 1 January. */
  dayOfYear: number[];
}

/** An invented year of hourly weather (or more of them), both columns already rounded to the one decimal that is printed. */
export interface InventedYear {
  start_ms: number;
  ghi_W_m2: Float64Array;
  air_degC: Float64Array;
}

/**
 * Sun and mean clearness of the invented place: the part of a stretch of days that no draw changes.
 *
 * in: start_ms, 0 h UTC of the first day; days, how many; 2025 unless given
 */
export function yearFrame(start_ms = START_MS, days = DAYS): YearFrame {
  const dates = Array.from({ length: days }, (_, day) => new Date(start_ms + day * DAY_MS));
  return {
    sun: skyHours(
      sunColumns(start_ms, days * 24, INVENTED_PLACE),
      INVENTED_PLACE.elevation_m,
      CLEAREST_SHARE,
    ),
    clearness: expectedClearness(START_MS),
    monthOfDay: dates.map((date) => date.getUTCMonth()),
    dayOfYear: dates.map((date) => (date.getTime() - Date.UTC(date.getUTCFullYear(), 0, 1)) / DAY_MS),
  };
}

/** How clear the days of a frame may be, one distribution a day. */
export function clearnessOfDays({ sun, monthOfDay, clearness }: YearFrame): ClearnessDistribution[] {
  return monthOfDay.map((month, day) => {
    const mean = clearness[month]!;
    const clearest = (BRIGHTEST_SHARE * sun.dailyBound_Wh_m2[day]!) / sun.dailyExtraterrestrial_Wh_m2[day]!;
    return bendt(mean, Math.min(highestClearness(mean), clearest));
  });
}

/**
 * A year of invented hourly weather (W/m2 and degrees Celsius) near 54 N, 10 E, the same for the same seed.
 *
 * in: seed, whole number; frame, from `yearFrame`
 * out: 8760 hours from 0 h UTC of 1 January 2025
 * valid: physically plausible, measured nowhere
 */
export function inventedYear(seed: number, frame: YearFrame): InventedYear {
  const persistence = frame.monthOfDay.map((month) => PERSISTENCE[month]!);
  const random = randomStream(seed, 'daily clearness');
  return hoursOfDays(seed, frame, dailyClearness(clearnessOfDays(frame), persistence, random));
}

/**
 * The hours of invented days.
 *
 * in: seed, of hours and air; frame, from `yearFrame`; days, how clear each of them is
 */
export function hoursOfDays(
  seed: number,
  { sun, dayOfYear }: YearFrame,
  { clearness, brightness }: ClearnessSequence,
): InventedYear {
  const ghi_W_m2 = hourlyIrradiance(sun, clearness, randomStream(seed, 'hourly clearness'));
  const irradiation_Wh_m2 = clearness.map((daily, day) => daily * sun.dailyExtraterrestrial_Wh_m2[day]!);
  const { air_degC } = airTemperature(
    sun,
    inventedAir(irradiation_Wh_m2, dayOfYear),
    brightness,
    randomStream(seed, 'temperature'),
  );
  return { start_ms: sun.start_ms, ghi_W_m2: ghi_W_m2.map(toTenth), air_degC: air_degC.map(toTenth) };
}

/** The invented year as the plain CSV file: start of the hour in UTC, mean over the hour. */
export function inventedYearCsv(year: InventedYear): string {
  const columns: CsvColumn<number>[] = [
    { heading: 'start_utc', cell: (hour) => stamp(year.start_ms + hour * HOUR_MS) },
    { heading: 'ghi_W_m2', cell: (hour) => fixed(year.ghi_W_m2[hour]!, 1) },
    { heading: 'air_degC', cell: (hour) => fixed(year.air_degC[hour]!, 1) },
  ];
  return csvText(columns, year.ghi_W_m2.keys());
}

function stamp(instant_ms: number): string {
  return new Date(instant_ms).toISOString().replace('.000', '');
}

function toTenth(value: number): number {
  return Math.round(value * 10) / 10;
}
