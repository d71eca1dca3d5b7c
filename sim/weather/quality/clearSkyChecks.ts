import { group, max, range, sum } from 'd3-array';
import { mean, median } from 'simple-statistics';
import { tenths } from '../../common/numeric.ts';
import { HOUR_MS, hoursText } from '../../common/time.ts';
import type { HourlyColumns } from '../WeatherRecord.ts';
import type { FindingsAbout } from './Finding.ts';
import { extremeOf } from './outsideLimits.ts';
import { daysOf, type SunLight } from './SunLight.ts';
import { flagsOf } from './stretchesOf.ts';

/** An hour may exceed the cleanest cloudless sky by this share and this much, by clouds at the sun's side; common practice, no source. */
const CLEAR_SKY_MARGIN = { share: 0.1, W_m2: 30 } as const;
/** Share of the hours with light that may lie above it before the unit or the place is in doubt. */
const ABOVE_SHARE = 0.05;

/**
 * Hours in which global irradiance exceeds that of the cleanest cloudless sky by more than the stated margin.
 *
 * in: ghi_W_m2, NaN missing; light, over the same hours; add, for what is found
 * source: IneichenPerez2002, Linke turbidity 2
 */
export function aboveClearSky(ghi_W_m2: Float64Array, light: SunLight, add: FindingsAbout): void {
  const { share, W_m2 } = CLEAR_SKY_MARGIN;
  const clear = (i: number): number => light.cleanest_W_m2[i]!;
  const isAbove = (i: number): boolean => light.dark[i] === 0 && ghi_W_m2[i]! > clear(i) * (1 + share) + W_m2;
  const above = flagsOf(ghi_W_m2.length, isAbove);
  const lit = sum(flagsOf(ghi_W_m2.length, (i) => clear(i) > 50 && ghi_W_m2[i]! >= 0));
  const hours = sum(above);
  const percent = tenths((100 * hours) / Math.max(lit, 1));
  const meaning =
    hours > ABOVE_SHARE * lit
      ? ': the unit, the place or the clock is in doubt'
      : ', as clouds beside the sun do';
  add.together(
    'above-clear-sky',
    above,
    'kept',
    `${hoursText(hours)} (${percent} percent of those with light) exceed the cleanest cloudless sky by more than ${share * 100} percent and ${W_m2} W/m2, such as ${extremeOf(ghi_W_m2, above, light.sun)}${meaning}`,
  );
}

/** Share of the tested hours from which components that do not close are set aside. */
const OPEN_SHARE = 0.2;

/**
 * Hours in which global irradiance and the sum of diffuse and direct on the flat differ by more than published
 * bounds: 8 percent, 15 with the sun below 15 degrees; or diffuse exceeds global by 5 (10) percent.
 *
 * in: columns, NaN missing; light, over the same hours; add, for what is found: direct and diffuse are set aside where
 *   too many hours disagree
 * valid: hours with the sun up throughout and a sum above 50 W/m2
 * source: LongDutton2002, across-quantities tests
 */
export function notClosing(columns: HourlyColumns, { sun }: SunLight, add: FindingsAbout): void {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = columns;
  if (dni_W_m2 === undefined || dhi_W_m2 === undefined) return;
  const open = new Uint8Array(ghi_W_m2.length);
  let tested = 0;
  let ratios = 0;
  for (let i = 0; i < open.length; i++) {
    const parts = dhi_W_m2[i]! + dni_W_m2[i]! * sun.upCosZenith[i]!;
    if (sun.upShare[i]! < 1 || !(parts > 50) || Number.isNaN(ghi_W_m2[i]!)) continue;
    const ratio = ghi_W_m2[i]! / parts;
    const high = sun.altitude_deg[i]! > 15;
    tested++;
    ratios += ratio;
    const diffuse = ghi_W_m2[i]! > 50 ? dhi_W_m2[i]! / ghi_W_m2[i]! : 0;
    if (Math.abs(ratio - 1) > (high ? 0.08 : 0.15) || diffuse > (high ? 1.05 : 1.1)) open[i] = 1;
  }
  const hours = sum(open);
  const aside = hours > OPEN_SHARE * tested;
  const usual = Math.round((1000 * ratios) / tested) / 1000;
  add.together(
    'not-closing',
    open,
    aside ? 'column set aside' : 'kept',
    `${hours} of ${tested} tested hours differ by more than 8 percent (15 with the sun below 15 degrees); global over the sum of the others is ${usual} on average${aside ? '; direct and diffuse are not used' : ''}`,
  );
}

/** Days with the sun above 20 degrees at noon, no hour missing around it, that a year needs to be judged. */
const FEWEST_DAYS = 120;
const NOON_REACH_DEG = 40;
/** Below it the brightest days are cloudy too, and tell of the weather. */
const LEAST_CLEARNESS = 0.8;

/** Departure of a year's clear days from the usual that is worth a word. */
const DRIFT_SHARE = 0.05;

/**
 * Years whose clear days stand apart from those of the others, as a share of the cleanest cloudless sky: the sky's best
 * hardly changes, so a year that departs points to the sensor (dirt, tilt, calibration). Looked at is the clearest
 * twentieth of the days, in their light around noon.
 *
 * in: ghi_W_m2, NaN missing; light, over the same hours; add, for years that depart
 * valid: volcanic years and a changed haze depart by a few percent too
 * source: IneichenPerez2002
 */
export function driftingYears(ghi_W_m2: Float64Array, light: SunLight, add: FindingsAbout): void {
  const { start_ms, count } = light.sun;
  const years = [...group(noonRatios(ghi_W_m2, light), ({ year }) => year)]
    .filter(([, days]) => days.length >= FEWEST_DAYS)
    .map(([year, days]) => {
      const ratios = days.map(({ ratio }) => ratio).toSorted((a, b) => b - a);
      return { year, days: days.length, clearness: mean(ratios.slice(0, Math.ceil(days.length / 20))) };
    });
  const usual = years.length === 0 ? 0 : median(years.map(({ clearness }) => clearness));
  if (usual < LEAST_CLEARNESS) return;
  for (const { year, days, clearness } of years) {
    const departure = clearness / usual - 1;
    if (Math.abs(departure) <= DRIFT_SHARE) continue;
    const from = Math.max(0, (Date.UTC(year, 0, 1) - start_ms) / HOUR_MS);
    const to = Math.min(count, (Date.UTC(year + 1, 0, 1) - start_ms) / HOUR_MS);
    const apart = `${tenths(100 * Math.abs(departure))} percent ${departure < 0 ? 'darker' : 'brighter'}`;
    const words = `the clearest of ${days} days of ${year} are ${apart} than in the middle year: dirt, tilt or another calibration?`;
    add.each('drift', [{ from, to }], 'kept', () => words);
  }
}

/** Light around the noon of each day over that of the cleanest sky. */
function noonRatios(ghi_W_m2: Float64Array, light: SunLight): { year: number; ratio: number }[] {
  const { hourAngle_deg, altitude_deg, start_ms } = light.sun;
  return daysOf(light).flatMap(({ from, to }) => {
    const noon = range(from, to).filter((i) => Math.abs(hourAngle_deg[i]! + 7.5) <= NOON_REACH_DEG);
    const highest_deg = max(noon, (i) => altitude_deg[i]!) ?? -90;
    if (noon.length < 5 || highest_deg < 20 || noon.some((i) => Number.isNaN(ghi_W_m2[i]!))) return [];
    const year = new Date(start_ms + noon[0]! * HOUR_MS + light.solarShift_ms).getUTCFullYear();
    return [{ year, ratio: sum(noon, (i) => ghi_W_m2[i]!) / sum(noon, (i) => light.cleanest_W_m2[i]!) }];
  });
}
