import { mean, minIndex, range, sum } from 'd3-array';
import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { hourShare, sunsetAngle } from '../../sun/dayShape.ts';
import { type SunColumns, sunColumns } from '../../sun/sunColumns.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import type { Place } from '../clock/checkSiteBySun.ts';
import { usualAir } from '../gaps/fillAir.ts';
import { isLight, type QuantityName } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';

/** Hourly columns on full hours of UTC, gaps kept. Row i covers the hour from start_ms + i h. */
export interface HourlyWithGaps {
  start_ms: number;
  count: number;
  /** Means over the hour (rain: the sum, m); NaN where too little of the hour was seen. */
  columns: Partial<Record<QuantityName, Float64Array>>;
}

/** Of an hour at least this share must be seen for it to have a value. */
const LEAST_SEEN = 0.75;

/**
 * Hours of a series once it is known what its stamps mean: means weighted by time (W/m2, degC, m, m/s; rain as
 * sum). Rows that lie across a full hour are shared out by time; rows longer than an hour, where the site is given,
 * by the height of the sun.
 *
 * in: series; minutesStampMinusMiddle, stamp minus middle of the measured interval; site, for rows longer than an hour
 * out: hours from the first to the last that was touched
 * valid: exact for steps that part the hour evenly and offsets that are whole steps or halves of one
 */
export function toHourly(
  series: NativeSeries,
  minutesStampMinusMiddle: number,
  site?: Place,
): HourlyWithGaps {
  const width_ms = series.step_s * 1000;
  const rows = series.stamp_ms.length;
  const shift_ms = snapped(series, minutesStampMinusMiddle * 60_000, width_ms);
  const begin_ms = series.stamp_ms.map((ms) => ms - shift_ms - width_ms / 2);
  const first = Math.floor(begin_ms[0]! / HOUR_MS);
  // The end of the last row, a rounding error below a full hour not counted.
  const count = Math.ceil((begin_ms[rows - 1]! + width_ms - 1) / HOUR_MS) - first;
  const start_ms = first * HOUR_MS;
  const columns: HourlyWithGaps['columns'] = {};
  const from_ms = begin_ms.map((ms) => ms - start_ms);
  const sun = site === undefined || width_ms <= HOUR_MS ? undefined : sunColumns(start_ms, count, site);
  for (const quantity of Object.keys(series.columns) as QuantityName[]) {
    const light = isLight(quantity) ? sun : undefined;
    const { integrals, covered_ms } = sharedOut(series, quantity, from_ms, count, light);
    columns[quantity] = integrals.map((integral, hour) => {
      const seen_ms = covered_ms[hour]!;
      if (seen_ms < LEAST_SEEN * HOUR_MS) return Number.NaN;
      // Rain is a sum over the step: its integral over the step's seconds is the sum.
      return integral / (seen_ms / HOUR_MS) / (quantity === 'rain' ? width_ms / HOUR_MS : 1);
    });
  }
  return { start_ms, count, columns };
}

/**
 * Of each hour what falls in of a quantity's rows: the integral over hours, so that a row that is the hour is left to the
 * bit, and the time that was seen.
 */
function sharedOut(
  series: NativeSeries,
  quantity: QuantityName,
  from_ms: Float64Array,
  count: number,
  sun: SunColumns | undefined,
) {
  const width_ms = series.step_s * 1000;
  const integrals = new Float64Array(count);
  const covered_ms = new Float64Array(count);
  const values = series.columns[quantity]!;
  const seen = series.seen?.[quantity];
  for (let row = 0; row < from_ms.length; row++) {
    const value = values[row]!;
    if (Number.isNaN(value)) continue;
    const from = from_ms[row]!;
    const share = seen === undefined ? 1 : seen[row]!;
    let height = 0;
    if (sun !== undefined)
      throughHours(from, width_ms, (hour, ms) => {
        height += heightIn(sun, hour) * (ms / width_ms);
      });
    throughHours(from, width_ms, (hour, ms) => {
      const weight = height > 0 ? heightIn(sun!, hour) / height : 1;
      integrals[hour]! += value * share * weight * (ms / HOUR_MS);
      covered_ms[hour]! += share * ms;
    });
  }
  return { integrals, covered_ms };
}

/** Goes through the hours that a row touches, with how much of each. */
function throughHours(from_ms: number, width_ms: number, take: (hour: number, ms: number) => void): void {
  const to_ms = from_ms + width_ms;
  for (let at = from_ms; at < to_ms; ) {
    const hour = Math.floor(at / HOUR_MS);
    const next = Math.min(to_ms, (hour + 1) * HOUR_MS);
    take(hour, next - at);
    at = next;
  }
}

/**
 * The shift that lays rows on full steps where they miss them by no more than 90 seconds, all alike (00:59 for the
 * end of an hour): there the clock is not that exact, and nothing is gained by cutting a minute off each row.
 */
function snapped(series: NativeSeries, shift_ms: number, width_ms: number): number {
  const miss = (row: number): number => {
    const begin = series.stamp_ms[row]! - shift_ms - width_ms / 2;
    return begin - Math.round(begin / width_ms) * width_ms;
  };
  const off_ms = miss(0);
  const alike = off_ms === miss(series.stamp_ms.length - 1) && off_ms === miss(series.stamp_ms.length >> 1);
  return alike && Math.abs(off_ms) <= 90_000 ? shift_ms + off_ms : shift_ms;
}

/** Cosine times sun-up share of an hour; 0 where the sun stays down. */
function heightIn(sun: SunColumns, hour: number): number {
  return sun.upCosZenith[hour]! * sun.upShare[hour]!;
}

/** Instants within an hour at which the shape of the day is taken. */
const PARTS = 6;

/**
 * Hours of a record that has a row a day: the day's light laid over its hours by the average shape of days, the air about
 * its mean as the season swings; rain shared out, snow and wind kept. The day's sums stay as they are, to rounding. Days are
 * those of the file's zone, or by the sun where it says none.
 *
 * in: series, with rows a day apart, their stamps in the day they are of; site; ofSun, where nobody says the zone
 * out: a series of hours, stamps at their starts; direct and diffuse are left out, and split from global again
 * valid: hours of single days depart much from the shape; what lamps make of a winter hangs on the days' sums
 * source: CollaresPereiraRabl1979 for the shape of global irradiance
 */
export function hoursOfDays(series: NativeSeries, site: Place, ofSun: boolean): NativeSeries {
  const shift_ms = ofSun ? Math.round(site.longitude_deg / 15) * HOUR_MS : 0;
  const rows = series.stamp_ms.length;
  const starts_ms = series.stamp_ms.map((ms) => Math.round(ms / HOUR_MS) * HOUR_MS - shift_ms);
  const shares = Array.from(starts_ms, (ms) => shapeOfDay(ms, site));
  const spread = (value: (row: number, hour: number) => number) =>
    Float64Array.from({ length: rows * 24 }, (_, i) => value(Math.floor(i / 24), i % 24));
  const columns: NativeSeries['columns'] = {};
  for (const [name, values] of Object.entries(series.columns) as [QuantityName, Float64Array][]) {
    if (name === 'dni' || name === 'dhi' || name === 'bhi') continue;
    const swings = name === 'air_temperature' ? Array.from(starts_ms, (ms) => airSwing(ms, site)) : [];
    columns[name] = spread((row, hour) => {
      const value = values[row]!;
      if (name === 'ghi') return value * 24 * shares[row]![hour]!;
      if (name === 'rain') return value / 24;
      return name === 'air_temperature' ? value + swings[row]![hour]! : value;
    });
  }
  return {
    ...series,
    stamp_ms: spread((row, hour) => starts_ms[row]! + hour * HOUR_MS),
    step_s: 3600,
    fileStep_s: 3600,
    columns,
    line: Uint32Array.from({ length: rows * 24 }, (_, i) => series.line[Math.floor(i / 24)]!),
  };
}

/** Share of the day's light in each of the 24 hours from an instant; the hour of noon has all where the sun stays down. */
function shapeOfDay(from_ms: number, { latitude_deg, longitude_deg }: Place): number[] {
  const { declination_deg, equationOfTime_min } = sunOfDay(from_ms + DAY_MS / 2);
  const sunset_deg = sunsetAngle(declination_deg, latitude_deg);
  const hourAngle_deg = (hour: number): number => {
    const solar_h = from_ms / HOUR_MS + hour + longitude_deg / 15 + equationOfTime_min / 60;
    return ((((solar_h % 24) + 24) % 24) - 12) * 15;
  };
  const parts = range(PARTS).map((part) => (part + 0.5) / PARTS);
  const lit = range(24).map((hour) =>
    sum(parts, (part) => hourShare(hourAngle_deg(hour + part), sunset_deg)),
  );
  const whole = sum(lit);
  if (whole > 0) return lit.map((value) => value / whole);
  const noon = minIndex(range(24), (hour) => Math.abs(hourAngle_deg(hour + 0.5)));
  return range(24).map((hour) => (hour === noon ? 1 : 0));
}

/** How far each hour of a day lies from its mean, by the usual course of the season, K. */
function airSwing(from_ms: number, { latitude_deg, longitude_deg }: Place): number[] {
  const usual = range(24).map((hour) =>
    usualAir(from_ms + (hour + 0.5) * HOUR_MS, latitude_deg, longitude_deg),
  );
  return usual.map((value) => value - mean(usual)!);
}
