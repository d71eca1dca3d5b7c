import { airTemperature } from '../../sim/climate/airTemperature.ts';
import { bendt, highestClearness } from '../../sim/climate/ClearnessDistribution.ts';
import { hourlyIrradiance } from '../../sim/climate/hourlyIrradiance.ts';
import { type SkyHours, skyHours } from '../../sim/climate/SkyHours.ts';
import { type CsvColumn, csvText, fixed } from '../../sim/common/csvText.ts';
import { randomStream } from '../../sim/common/random.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { dailyClearness } from './dailyClearness.ts';
import { expectedClearness, MONTH_STARTS } from './expectedMonths.ts';
import { inventedAir } from './inventedAir.ts';
import { PERSISTENCE } from './publishedMonths.ts';

const START_MS = Date.UTC(2025, 0, 1);
const DAYS = 365;
const HOUR_MS = 3_600_000;

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
}

/** An invented year of hourly weather, both columns already rounded to the one decimal that is printed. */
export interface InventedYear {
  start_ms: number;
  ghi_W_m2: Float64Array;
  air_degC: Float64Array;
}

/** Sun and mean clearness of the invented place in 2025: the part of the year that no draw changes. */
export function yearFrame(): YearFrame {
  return {
    sun: skyHours(
      sunColumns(START_MS, DAYS * 24, INVENTED_PLACE),
      INVENTED_PLACE.elevation_m,
      CLEAREST_SHARE,
    ),
    clearness: expectedClearness(START_MS),
    monthOfDay: Array.from({ length: DAYS }, (_, day) => monthOf(day)),
  };
}

/**
 * A year of invented hourly weather (W/m2 and degrees Celsius) near 54 N, 10 E, the same for the same seed.
 *
 * in: seed, whole number; frame, from `yearFrame`
 * out: 8760 hours from 0 h UTC of 1 January 2025
 * valid: physically plausible, measured nowhere
 */
export function inventedYear(seed: number, frame: YearFrame): InventedYear {
  const { sun, monthOfDay } = frame;
  const days = monthOfDay.map((month, day) => {
    const mean = frame.clearness[month]!;
    const clearest = (BRIGHTEST_SHARE * sun.dailyBound_Wh_m2[day]!) / sun.dailyExtraterrestrial_Wh_m2[day]!;
    return bendt(mean, Math.min(highestClearness(mean), clearest));
  });
  const persistence = monthOfDay.map((month) => PERSISTENCE[month]!);
  const { clearness, brightness } = dailyClearness(days, persistence, randomStream(seed, 'daily clearness'));
  const ghi_W_m2 = hourlyIrradiance(sun, clearness, randomStream(seed, 'hourly clearness'));
  const irradiation_Wh_m2 = clearness.map((daily, day) => daily * sun.dailyExtraterrestrial_Wh_m2[day]!);
  const { air_degC } = airTemperature(
    sun,
    inventedAir(irradiation_Wh_m2),
    brightness,
    randomStream(seed, 'temperature'),
  );
  return { start_ms: START_MS, ghi_W_m2: ghi_W_m2.map(toTenth), air_degC: air_degC.map(toTenth) };
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

function monthOf(day: number): number {
  return MONTH_STARTS.findIndex((start) => start > day) - 1;
}

function toTenth(value: number): number {
  return Math.round(value * 10) / 10;
}
