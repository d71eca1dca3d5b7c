import { tenths } from '../../common/numeric.ts';
import type { Site } from '../../sun/Site.ts';
import { RANGES } from '../limits.ts';
import { type HourlyColumns, hoursWithin, IRRADIANCE_COLUMNS } from '../WeatherRecord.ts';
import { aboveClearSky, type ClearDaysOfYear, notClosing, yearlyClearDays } from './clearSkyChecks.ts';
import { type AddFindings, addFindings, type Finding, type FindingKind } from './Finding.ts';
import { drawnDays, repeatedDays } from './filledDays.ts';
import {
  type FilledStretch,
  type LightSeries,
  repeatedValues,
  resolutionOf,
  straightLines,
  zeroHours,
} from './filledHours.ts';
import { lightInTheDark, outsideLimits } from './outsideLimits.ts';
import { type SunLight, sunLight } from './SunLight.ts';
import { equalRuns, flagsOf, stretchesFlagged } from './stretchesOf.ts';

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

/** Checks for gaps that somebody upstream has filled, in order: what one finds the next does not see. */
export const FILLED_UPSTREAM: ReadonlyMap<FindingKind, (series: LightSeries) => FilledStretch[]> = new Map([
  ['zero-hours', zeroHours],
  ['value-repeated', repeatedValues],
  ['straight-line', straightLines],
  ['day-repeated', repeatedDays],
  ['day-drawn', drawnDays],
]);

/**
 * Every quality check on the hourly columns of a record, with what becomes of the hours.
 *
 * in: columns, NaN missing (left as they are); site; drawn, whether all hours are drawn from days, so that likeness tells nothing;
 *   sun, that over these hours, where it was made already
 * out: a cleaned copy and the findings
 * valid: hours in the right clock and unit; a wrong clock shows here as many faults, and is told by the clock check
 * source: LongDutton2002; ISO9060; IneichenPerez2002
 */
export function examineQuality(
  columns: HourlyColumns,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  { drawn = false, sun }: { drawn?: boolean; sun?: SunLight | undefined } = {},
): QualityReport {
  const { start_ms, count } = columns;
  const known = sun?.sun.start_ms === start_ms && sun.sun.count === count;
  const light = known ? sun : sunLight(start_ms, count, site);
  const clean = hoursWithin(columns, 0, count);
  const findings: Finding[] = [];
  const filledUpstream = new Uint8Array(count);
  for (const name of IRRADIANCE_COLUMNS) {
    const values = clean[name];
    if (values === undefined) continue;
    const add = addFindings(findings, name, start_ms);
    if (!drawn) {
      // No direct light for days is what overcast does.
      const filled = takeFilled(values, light, add, name === 'dni_W_m2' ? ['zero-hours'] : []);
      if (name === 'ghi_W_m2') filledUpstream.set(filled);
    }
    // Direct and diffuse that cannot be are not needed where global is there.
    const doubted =
      name === 'ghi_W_m2' || !columns.ghi_W_m2.some((value) => value > 0) ? 'refused' : 'column set aside';
    const before = findings.length;
    outsideLimits(name, values, light, add, doubted);
    lightInTheDark(values, light, add, doubted);
    if (findings.slice(before).some(({ effect }) => effect === 'column set aside')) delete clean[name];
  }
  const add = addFindings(findings, 'ghi_W_m2', start_ms);
  aboveClearSky(clean.ghi_W_m2, light, add);
  notClosing(clean, light, addFindings(findings, 'dni_W_m2, dhi_W_m2', start_ms));
  const clearDays = yearlyClearDays(clean.ghi_W_m2, light, add);
  if (clean.air_degC !== undefined) checkAir(clean.air_degC, addFindings(findings, 'air_degC', start_ms));
  return { columns: clean, findings, filledUpstream, clearDays, light };
}

/** Hours that somebody upstream has filled become NaN, and are flagged. */
function takeFilled(
  values: Float64Array,
  light: SunLight,
  add: AddFindings,
  except: readonly FindingKind[],
): Uint8Array {
  const series = { values, light, resolution_W_m2: resolutionOf(values) };
  const flags = new Uint8Array(values.length);
  for (const [kind, check] of FILLED_UPSTREAM) {
    if (except.includes(kind)) continue;
    const found = check(series);
    add.each(kind, found, 'taken as missing', ({ evidence }) => evidence);
    for (const { from, to } of found) {
      flags.fill(1, from, to);
      values.fill(Number.NaN, from, to);
    }
  }
  return flags;
}

/** Up and down again (or down and up) by more than this within two hours is a fault; common practice, no source. */
const SPIKE_K = 20;
const LONGEST_STILL_H = 30;
const LONGEST_STILL_COARSE_H = 60;

/**
 * Air temperatures that cannot be become NaN: beyond the records of the world, spikes of an hour, one value for 30 hours
 * and more (for 60 where temperatures are whole degrees).
 *
 * source: WMOExtremes for the range
 */
function checkAir(air_degC: Float64Array, add: AddFindings): void {
  const { lowest, highest } = RANGES.air_temperature!;
  const isSpike = (i: number): boolean => {
    const before = air_degC[i]! - (air_degC[i - 1] ?? Number.NaN);
    const after = air_degC[i]! - (air_degC[i + 1] ?? Number.NaN);
    return before * after > 0 && Math.min(Math.abs(before), Math.abs(after)) > SPIKE_K;
  };
  const isOut = (i: number): boolean => air_degC[i]! < lowest || air_degC[i]! > highest || isSpike(i);
  const impossible = stretchesFlagged(flagsOf(air_degC.length, isOut));
  const still = resolutionOf(air_degC) > 0.45 ? LONGEST_STILL_COARSE_H : LONGEST_STILL_H;
  const repeated = equalRuns(air_degC, still);
  const text = (from: number): string => `${tenths(air_degC[from]!)} degC`;
  add.each('air-impossible', impossible, 'taken as missing', ({ from }) => text(from));
  add.each('air-repeated', repeated, 'taken as missing', ({ from, to }) => {
    return `${text(from)} in ${to - from} hours running`;
  });
  for (const { from, to } of [...impossible, ...repeated]) air_degC.fill(Number.NaN, from, to);
}
