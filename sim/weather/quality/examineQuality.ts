import { HOUR_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { HIGHEST_NIGHT_W_M2, RANGES } from '../limits.ts';
import { type HourlyColumns, IRRADIANCE_COLUMNS, type IrradianceColumn } from '../WeatherRecord.ts';
import {
  aboveClearSky,
  CLEAR_SKY_MARGIN,
  type ClearDaysOfYear,
  notClosing,
  yearlyClearDays,
} from './clearSkyChecks.ts';
import {
  type AddFindings,
  addFindings,
  countFlags,
  type Finding,
  type FindingEffect,
  type FindingKind,
  stretchesFlagged,
} from './Finding.ts';
import { drawnDays, repeatedDays } from './filledDays.ts';
import { repeatedValues, resolutionOf, straightLines, zeroHours } from './filledHours.ts';
import { extremeOf, outsideLimits } from './outsideLimits.ts';
import { type SunLight, sunLight } from './SunLight.ts';
import { equalRuns, type Stretch } from './stretchesOf.ts';

/** What the quality checks made of a record. */
export interface QualityReport {
  /** A copy of the columns: faulty hours and gaps filled upstream are NaN, small offsets are 0. */
  columns: HourlyColumns;
  /** In the order of the checks, then of time. */
  findings: Finding[];
  /** 1 where the global irradiance of the file was a gap that somebody upstream had filled. */
  filledUpstream: Uint8Array;
  clearDays: ClearDaysOfYear[];
  light: SunLight;
}

/** Share of its hours from which a fault puts the whole column in doubt: a wrong unit, clock or place. */
const DOUBT_SHARE = 0.01;
const LEAST_DOUBT_HOURS = 24;
/** Share of the tested hours from which components that do not close are set aside. */
const OPEN_SHARE = 0.2;
/** Share of the hours with light that may lie above the clear sky before the unit or the place is in doubt. */
const ABOVE_SHARE = 0.05;
/** Departure of a year's clear days from the usual that is worth a word. */
const DRIFT_SHARE = 0.05;

/**
 * Every quality check on the hourly columns of a record, with what becomes of the hours.
 *
 * in: columns, NaN missing (left as they are); site; drawn, whether all hours are drawn from days, so that likeness tells nothing
 * out: a cleaned copy and the findings
 * valid: hours in the right clock and unit; a wrong clock shows here as many faults, and is told by the clock check
 * source: LongDutton2002; ISO9060; IneichenPerez2002
 */
export function examineQuality(
  columns: HourlyColumns,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  { drawn = false }: { drawn?: boolean } = {},
): QualityReport {
  const light = sunLight(columns.start_ms, columns.count, site);
  const clean: HourlyColumns = { ...columns };
  const findings: Finding[] = [];
  const filledUpstream = new Uint8Array(columns.count);
  for (const name of IRRADIANCE_COLUMNS) {
    const given = columns[name];
    if (given === undefined) continue;
    const values = Float64Array.from(given);
    clean[name] = values;
    const add = addFindings(findings, name, columns.start_ms);
    if (!drawn) {
      const upstream = filledStretches(name, values, light, add);
      if (name === 'ghi_W_m2') filledUpstream.set(upstream);
    }
    // Direct and diffuse that cannot be are not needed where global is there.
    const doubted =
      name === 'ghi_W_m2' || !columns.ghi_W_m2.some((value) => value > 0) ? 'refused' : 'column set aside';
    const before = findings.length;
    limits(name, values, light, add, doubted);
    night(values, light, add, doubted);
    if (findings.slice(before).some(({ effect }) => effect === 'column set aside')) delete clean[name];
  }
  const add = addFindings(findings, 'ghi_W_m2', columns.start_ms);
  brightness(clean.ghi_W_m2, light, add);
  closure(clean, light, addFindings(findings, 'dni_W_m2, dhi_W_m2', columns.start_ms));
  const clearDays = yearlyClearDays(clean.ghi_W_m2, light);
  drift(clearDays, columns, add);
  if (columns.air_degC !== undefined) {
    clean.air_degC = Float64Array.from(columns.air_degC);
    air(clean.air_degC, addFindings(findings, 'air_degC', columns.start_ms));
  }
  return { columns: clean, findings, filledUpstream, clearDays, light };
}

/** Published limits; what cannot be becomes NaN. */
function limits(
  name: IrradianceColumn,
  values: Float64Array,
  light: SunLight,
  add: AddFindings,
  doubted: FindingEffect,
): void {
  const present = values.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : 1), 0);
  const { impossible, extremelyRare } = outsideLimits(name, values, light);
  const hours = countFlags(impossible);
  if (inDoubt(hours, present)) {
    const share = Math.round((1000 * hours) / present) / 10;
    const example = extremeOf(values, impossible, light);
    const text = `${hours} hours (${share} percent) cannot be, such as ${example}: ${doubted === 'refused' ? 'the unit, the clock or the place is wrong' : 'the column is not used'}`;
    add.together('impossible', impossible, doubted, text);
  } else {
    add.each('impossible', stretchesFlagged(impossible), 'taken as missing', (stretch) =>
      extremeOf(values, impossible, light, stretch),
    );
    clear(values, stretchesFlagged(impossible));
  }
  const example = extremeOf(values, extremelyRare, light);
  add.together(
    'extremely-rare',
    extremelyRare,
    'kept',
    `${hoursText(countFlags(extremelyRare))}, such as ${example}`,
  );
}

/** Gaps that somebody upstream has filled; they become NaN. */
function filledStretches(
  name: IrradianceColumn,
  values: Float64Array,
  light: SunLight,
  add: AddFindings,
): Uint8Array {
  const resolution = resolutionOf(values);
  const upstream = new Uint8Array(values.length);
  const take = (kind: FindingKind, found: readonly (Stretch & { evidence: string })[]) => {
    add.each(kind, found, 'taken as missing', ({ evidence }) => evidence);
    for (const { from, to } of found) upstream.fill(1, from, to);
    clear(values, found);
  };
  // No direct light for days is what overcast does.
  if (name !== 'dni_W_m2') take('zero-hours', zeroHours(values, light, resolution));
  take('value-repeated', repeatedValues(values, light, resolution));
  take('straight-line', straightLines(values, light, resolution));
  take('day-repeated', repeatedDays(values, light, resolution));
  take('day-drawn', drawnDays(values, light, resolution));
  return upstream;
}

/** Radiation with the sun down, and offsets, which become 0. */
function night(values: Float64Array, light: SunLight, add: AddFindings, doubted: FindingEffect): void {
  let dark = 0;
  const bright = new Uint8Array(values.length);
  const offset = new Uint8Array(values.length);
  const readings: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    if (light.dark[i]) {
      dark++;
      if (value > HIGHEST_NIGHT_W_M2) bright[i] = 1;
      else if (value !== 0) offset[i] = 1;
      readings.push(value);
    } else if (value < 0) offset[i] = 1;
  }
  const hours = countFlags(bright);
  const doubt = inDoubt(hours, dark);
  const example = extremeOf(values, bright, light);
  const words =
    doubted === 'refused'
      ? ': the clock or the place is wrong, or the sensor faulty'
      : ': the sensor is faulty, the column is not used';
  const meaning = doubt ? words : '';
  add.together(
    'sun-down',
    bright,
    doubt ? doubted : 'set to 0',
    `${hours} of ${dark} dark hours above ${HIGHEST_NIGHT_W_M2} W/m2, such as ${example}${meaning}`,
  );
  readings.sort((a, b) => a - b);
  const at = (share: number) => round(readings[Math.floor(share * (readings.length - 1))]!);
  const usual =
    dark === 0
      ? 'below zero by day'
      : `the dark hours read ${at(0.5)} W/m2 in the middle, ${at(0.05)} to ${at(0.95)} in 9 of 10; daylight keeps its offset`;
  add.together('night-offset', offset, 'set to 0', `${hoursText(countFlags(offset))}; ${usual}`);
  for (let i = 0; i < values.length; i++) {
    if (offset[i] || (bright[i] && !doubt)) values[i] = 0;
  }
}

/** Light above the cleanest cloudless sky. */
function brightness(ghi_W_m2: Float64Array, light: SunLight, add: AddFindings): void {
  const above = aboveClearSky(ghi_W_m2, light);
  let lit = 0;
  for (let i = 0; i < above.length; i++) if (light.cleanest_W_m2[i]! > 50 && ghi_W_m2[i]! >= 0) lit++;
  const hours = countFlags(above);
  const margin = `${CLEAR_SKY_MARGIN.share * 100} percent and ${CLEAR_SKY_MARGIN.W_m2} W/m2`;
  const share = Math.round((1000 * hours) / Math.max(lit, 1)) / 10;
  const example = extremeOf(ghi_W_m2, above, light);
  const meaning =
    hours > ABOVE_SHARE * lit
      ? ': the unit, the place or the clock is in doubt'
      : ', as clouds beside the sun do';
  add.together(
    'above-clear-sky',
    above,
    'kept',
    `${hoursText(hours)} (${share} percent of those with light) exceed the cleanest cloudless sky by more than ${margin}, such as ${example}${meaning}`,
  );
}

/** Components held against each other; where too many disagree, direct and diffuse are set aside. */
function closure(clean: HourlyColumns, light: SunLight, add: AddFindings): void {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = clean;
  if (dni_W_m2 === undefined || dhi_W_m2 === undefined) return;
  const { tested, open, meanRatio } = notClosing(ghi_W_m2, dni_W_m2, dhi_W_m2, light);
  const hours = countFlags(open);
  const aside = hours > OPEN_SHARE * tested;
  add.together(
    'not-closing',
    open,
    aside ? 'column set aside' : 'kept',
    `${hours} of ${tested} tested hours differ by more than 8 percent (15 with the sun below 15 degrees); global over the sum of the others is ${Math.round(meanRatio * 1000) / 1000} on average${aside ? '; direct and diffuse are not used' : ''}`,
  );
  if (!aside) return;
  delete clean.dni_W_m2;
  delete clean.dhi_W_m2;
}

function drift(clearDays: readonly ClearDaysOfYear[], columns: HourlyColumns, add: AddFindings): void {
  const { start_ms } = columns;
  for (const { year, departure, days } of clearDays) {
    if (Math.abs(departure) <= DRIFT_SHARE) continue;
    const from = Math.max(0, (Date.UTC(year, 0, 1) - start_ms) / HOUR_MS);
    const to = Math.min(columns.count, (Date.UTC(year + 1, 0, 1) - start_ms) / HOUR_MS);
    const percent = `${Math.round(Math.abs(departure) * 1000) / 10} percent`;
    const way = departure < 0 ? 'darker' : 'brighter';
    add.each('drift', [{ from, to }], 'kept', () => {
      return `the clearest of ${days} days of ${year} are ${percent} ${way} than in the middle year: dirt, tilt or another calibration?`;
    });
  }
}

function air(values: Float64Array, add: AddFindings): void {
  const { impossible, repeated } = checkAir(values);
  const stretches = stretchesFlagged(impossible);
  add.each('air-impossible', stretches, 'taken as missing', ({ from }) => `${round(values[from]!)} degC`);
  add.each('air-repeated', repeated, 'taken as missing', ({ from, to }) => {
    return `${round(values[from]!)} degC in ${to - from} hours running`;
  });
  clear(values, stretches);
  clear(values, repeated);
}

function clear(values: Float64Array, stretches: readonly Stretch[]): void {
  for (const { from, to } of stretches) values.fill(Number.NaN, from, to);
}

function hoursText(hours: number): string {
  return `${hours} ${hours === 1 ? 'hour' : 'hours'}`;
}

function inDoubt(hours: number, of: number): boolean {
  return hours >= LEAST_DOUBT_HOURS && hours > DOUBT_SHARE * of;
}

function round(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

/** Hours of air temperature that nobody measured so. */
interface AirFaults {
  /** Outside the records of the world, or a spike. */
  impossible: Uint8Array;
  /** One temperature for a day and more. */
  repeated: Stretch[];
}

/** Up and down again (or down and up) by more than this within two hours is a fault; common practice, no source. */
const SPIKE_K = 20;
const LONGEST_STILL_H = 30;
const LONGEST_STILL_COARSE_H = 60;

/**
 * Air temperatures that cannot be: beyond the records of the world, spikes of an hour, one value for 30 hours
 * and more (for 60 where temperatures are whole degrees).
 *
 * in: air_degC, NaN missing
 * out: hours and stretches
 * source: WMOExtremes for the range
 */
function checkAir(air_degC: Float64Array): AirFaults {
  const { lowest, highest } = RANGES.air_temperature!;
  const impossible = new Uint8Array(air_degC.length);
  for (let i = 0; i < air_degC.length; i++) {
    const value = air_degC[i]!;
    const before = value - (air_degC[i - 1] ?? Number.NaN);
    const after = value - (air_degC[i + 1] ?? Number.NaN);
    const spike = before * after > 0 && Math.min(Math.abs(before), Math.abs(after)) > SPIKE_K;
    if (value < lowest || value > highest || spike) impossible[i] = 1;
  }
  const still = resolutionOf(air_degC) > 0.45 ? LONGEST_STILL_COARSE_H : LONGEST_STILL_H;
  const repeated = equalRuns(air_degC, still);
  return { impossible, repeated };
}
