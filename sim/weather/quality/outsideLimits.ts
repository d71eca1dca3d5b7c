import { count, greatest, range, sum } from 'd3-array';
import { tenths } from '../../common/numeric.ts';
import { HOUR_MS, hoursText, utcText } from '../../common/time.ts';
import { HIGHEST_NIGHT_W_M2, highestLight, LOWEST_IRRADIANCE_W_M2 } from '../limits.ts';
import type { IrradianceColumn } from '../WeatherRecord.ts';
import type { FindingEffect, FindingsAbout } from './Finding.ts';
import type { SunLight } from './SunLight.ts';
import { flagsOf, type Stretch, stretchesFlagged } from './stretchesOf.ts';

/** Share of its hours from which a fault puts the whole column in doubt: a wrong unit, clock or place. */
const DOUBT_SHARE = 0.01;
const LEAST_DOUBT_HOURS = 24;
const QUANTITY = { ghi_W_m2: 'ghi', dni_W_m2: 'dni', dhi_W_m2: 'dhi' } as const;

/**
 * Irradiance outside the physically possible, which becomes NaN, or outside the extremely rare limits.
 *
 * in: column; values, W/m2, NaN missing; light, over the same hours; add, for what is found; doubted, what becomes of a
 *   column of which much is impossible
 * valid: means of an hour with the sun at its middle, or at the middle of its sun-up part
 * source: LongDutton2002
 * departs: readings below zero are bounded by the largest offset of good sensors, not by -4 W/m2
 */
export function outsideLimits(
  column: IrradianceColumn,
  values: Float64Array,
  { sun }: SunLight,
  add: FindingsAbout,
  doubted: FindingEffect,
): void {
  const highest = (bound: 'possible' | 'rare', i: number): number => {
    // In sunrise hours the sun stands higher in its sun-up part than at mid-hour.
    const altitude_deg = Math.max(sun.altitude_deg[i]!, sun.upAltitude_deg[i]!);
    return highestLight(bound, QUANTITY[column], sun.extraterrestrial_W_m2[i]!, altitude_deg);
  };
  const impossible = flagsOf(
    values.length,
    (i) => values[i]! < LOWEST_IRRADIANCE_W_M2 || values[i]! > highest('possible', i),
  );
  const rare = flagsOf(values.length, (i) => impossible[i] === 0 && values[i]! > highest('rare', i));
  const present = count(values);
  const hours = sum(impossible);
  if (inDoubt(hours, present)) {
    const why =
      doubted === 'refused' ? 'the unit, the clock or the place is wrong' : 'the column is not used';
    const share = tenths((100 * hours) / present);
    const text = `${hours} hours (${share} percent) cannot be, such as ${extremeOf(values, impossible, sun)}: ${why}`;
    add.together('impossible', impossible, doubted, text);
  } else {
    add.each('impossible', stretchesFlagged(impossible), 'taken as missing', (part) => {
      const most = highest('possible', extremeAt(values, impossible, part)!);
      return `${extremeOf(values, impossible, sun, part)}, where ${LOWEST_IRRADIANCE_W_M2} to ${tenths(most)} W/m2 can be`;
    });
  }
  const such = `${hoursText(sum(rare))}, such as ${extremeOf(values, rare, sun)}`;
  add.together('extremely-rare', rare, 'kept', such);
}

/**
 * Radiation with the sun down, and offsets, both of which become 0.
 *
 * in: as outsideLimits
 * source: ISO9060 for what an offset explains
 */
export function lightInTheDark(
  values: Float64Array,
  light: SunLight,
  add: FindingsAbout,
  doubted: FindingEffect,
): void {
  const isDark = (i: number): boolean => light.dark[i] === 1;
  const bright = flagsOf(values.length, (i) => isDark(i) && values[i]! > HIGHEST_NIGHT_W_M2);
  const offset = flagsOf(
    values.length,
    (i) => values[i]! < 0 || (isDark(i) && bright[i] === 0 && values[i]! > 0),
  );
  const readings = values.filter((value, i) => isDark(i) && !Number.isNaN(value)).sort();
  const hours = sum(bright);
  const why =
    doubted === 'refused'
      ? ': the clock or the place is wrong, or the sensor faulty'
      : ': the sensor is faulty, the column is not used';
  const such = `${hours} of ${readings.length} dark hours above ${HIGHEST_NIGHT_W_M2} W/m2, such as ${extremeOf(values, bright, light.sun)}`;
  const at = (share: number) => tenths(readings[Math.floor(share * (readings.length - 1))]!);
  const usual =
    readings.length === 0
      ? 'below zero by day'
      : `the dark hours read ${at(0.5)} W/m2 in the middle, ${at(0.05)} to ${at(0.95)} in 9 of 10; daylight keeps its offset`;
  const isDoubted = inDoubt(hours, readings.length);
  add.together('sun-down', bright, isDoubted ? doubted : 'set to 0', isDoubted ? such + why : such);
  add.together('night-offset', offset, 'set to 0', `${hoursText(sum(offset))}; ${usual}`);
}

function inDoubt(hours: number, of: number): boolean {
  return hours >= LEAST_DOUBT_HOURS && hours > DOUBT_SHARE * of;
}

/**
 * The flagged value farthest from zero, with its hour and the height of the sun, in words.
 *
 * in: values, W/m2; flags, one byte an hour; sun, over the same hours; stretch to look in (all by default)
 * out: words; '' where nothing is flagged
 */
export function extremeOf(
  values: Float64Array,
  flags: Uint8Array,
  sun: SunLight['sun'],
  stretch: Stretch = { from: 0, to: values.length },
): string {
  const at = extremeAt(values, flags, stretch);
  if (at === undefined) return '';
  const altitude = Math.round(sun.altitude_deg[at]!) + 0;
  return `${tenths(values[at]!)} W/m2 in the hour from ${utcText(sun.start_ms + at * HOUR_MS)} with the sun at ${altitude} degrees`;
}

/** The hour of that value; undefined where nothing is flagged. */
function extremeAt(values: Float64Array, flags: Uint8Array, { from, to }: Stretch): number | undefined {
  const flagged = range(from, to).filter((i) => flags[i] === 1);
  return greatest(flagged, (i) => Math.abs(values[i]!));
}
