import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { sunOfDay } from '../clock/sunOfDay.ts';
import { usualAir } from '../gaps/usualAir.ts';
import type { QuantityName } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';

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
export function hoursOfDays(
  series: NativeSeries,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
  ofSun: boolean,
): NativeSeries {
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
    file: Uint8Array.from({ length: rows * 24 }, (_, i) => series.file[Math.floor(i / 24)]!),
  };
}

/** Share of the day's light in each of the 24 hours from an instant; the hour of noon has all where the sun stays down. */
function shapeOfDay(
  from_ms: number,
  { latitude_deg, longitude_deg }: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): number[] {
  const rad = Math.PI / 180;
  const { declination_deg, equationOfTime_min } = sunOfDay(from_ms + DAY_MS / 2);
  const sunset = Math.acos(
    Math.max(-1, Math.min(1, -Math.tan(latitude_deg * rad) * Math.tan(declination_deg * rad))),
  );
  const a = 0.409 + 0.5016 * Math.sin(sunset - 60 * rad);
  const b = 0.6609 - 0.4767 * Math.sin(sunset - 60 * rad);
  const angle = (ms: number): number => {
    const hours = ms / HOUR_MS + longitude_deg / 15 + equationOfTime_min / 60;
    return ((((hours % 24) + 24) % 24) - 12) * 15 * rad;
  };
  const lit = Array.from({ length: 24 }, (_, hour) => {
    let sum = 0;
    for (let part = 0; part < PARTS; part++) {
      const w = angle(from_ms + (hour + (part + 0.5) / PARTS) * HOUR_MS);
      if (Math.abs(w) < sunset) sum += (a + b * Math.cos(w)) * (Math.cos(w) - Math.cos(sunset));
    }
    return sum;
  });
  const whole = lit.reduce((sum, value) => sum + value, 0);
  if (whole > 0) return lit.map((value) => value / whole);
  const away = lit.map((_, hour) => Math.abs(angle(from_ms + (hour + 0.5) * HOUR_MS)));
  const noon = away.indexOf(Math.min(...away));
  return lit.map((_, hour) => (hour === noon ? 1 : 0));
}

/** How far each hour of a day lies from its mean, by the usual course of the season, K. */
function airSwing(
  from_ms: number,
  { latitude_deg, longitude_deg }: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): number[] {
  const hours = Array.from({ length: 24 }, (_, hour) =>
    usualAir(from_ms + (hour + 0.5) * HOUR_MS, latitude_deg, longitude_deg),
  );
  const mean = hours.reduce((sum, value) => sum + value, 0) / 24;
  return hours.map((value) => value - mean);
}
