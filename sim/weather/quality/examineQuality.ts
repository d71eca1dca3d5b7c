import { tenths } from '../../common/numeric.ts';
import type { Site } from '../../sun/Site.ts';
import { RANGES } from '../limits.ts';
import { type ColumnName, type HourlyColumns, hoursWithin, IRRADIANCE_COLUMNS } from '../WeatherRecord.ts';
import { aboveClearSky, driftingYears, notClosing } from './clearSkyChecks.ts';
import { type Finding, type FindingKind, type FindingsAbout, findingsAbout } from './Finding.ts';
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
import { atRangeEnd } from './rangeEnd.ts';
import { type SunLight, sunLight } from './SunLight.ts';
import { equalRuns, flagsOf, type Stretch, stretchesOf } from './stretchesOf.ts';

/** What the quality checks made of a record. */
export interface QualityReport {
  /** A copy of the columns: faulty hours and gaps filled upstream are NaN, small offsets are 0. */
  columns: HourlyColumns;
  /** In the order of the checks, then of time. */
  findings: Finding[];
  /** 1 where the global irradiance of the file was a gap that somebody upstream had filled. */
  filledUpstream: Uint8Array;
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
 * in: columns, NaN missing (left as they are); site; drawn, whether all hours are drawn from days, so that likeness tells
 *   nothing; stated, whether the user says what they hold, so that nothing but offsets is mended
 * out: a cleaned copy and the findings
 * valid: hours in the right clock and unit; a wrong clock shows here as many faults, and is told by the clock check
 * source: LongDutton2002; ISO9060; IneichenPerez2002
 */
export function examineQuality(
  columns: HourlyColumns,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  { drawn = false, stated = false }: { drawn?: boolean; stated?: boolean } = {},
): QualityReport {
  const { start_ms, count } = columns;
  const light = sunLight(start_ms, count, site);
  const clean = hoursWithin(columns, 0, count);
  const findings: Finding[] = [];
  let filledUpstream: Uint8Array = new Uint8Array(count);
  const lost = (now: number, before: number): boolean => Number.isNaN(now) && !Number.isNaN(before);
  const about = (...names: ColumnName[]) => findingsAbout(findings, clean, names, stated);
  for (const name of IRRADIANCE_COLUMNS) {
    const values = clean[name];
    if (values === undefined) continue;
    const add = about(name);
    // No direct light for days is what overcast does.
    if (!drawn) findFilled(values, light, add, name === 'dni_W_m2' ? ['zero-hours'] : []);
    if (name === 'ghi_W_m2') filledUpstream = flagsOf(count, (i) => lost(values[i]!, columns.ghi_W_m2[i]!));
    // Direct and diffuse that cannot be are not needed where global is there.
    const doubted =
      name === 'ghi_W_m2' || !columns.ghi_W_m2.some((value) => value > 0) ? 'refused' : 'column set aside';
    outsideLimits(name, values, light, add, doubted);
    if (clean[name] !== undefined) lightInTheDark(values, light, add, doubted);
  }
  const add = about('ghi_W_m2');
  if (!drawn) atRangeEnd(columns.ghi_W_m2, clean.ghi_W_m2, add);
  aboveClearSky(clean.ghi_W_m2, light, add);
  notClosing(clean, light, about('dni_W_m2', 'dhi_W_m2'));
  driftingYears(clean.ghi_W_m2, light, add);
  for (const name of Object.keys(RANGES) as (keyof typeof RANGES)[]) {
    if (clean[name] !== undefined) beyondRecords(name, clean[name], about(name));
  }
  if (clean.air_degC !== undefined) oddAir(clean.air_degC, about('air_degC'));
  return { columns: clean, findings, filledUpstream, light };
}

/** Hours that somebody upstream has filled. */
function findFilled(
  values: Float64Array,
  light: SunLight,
  add: FindingsAbout,
  except: readonly FindingKind[],
): void {
  const series = { values, light, resolution_W_m2: resolutionOf(values) };
  for (const [kind, check] of FILLED_UPSTREAM) {
    if (!except.includes(kind)) add.each(kind, check(series), 'taken as missing', ({ evidence }) => evidence);
  }
}

/** Temperatures beyond the records of the world become NaN; what is so of snow, rain and wind is kept. source: WMOExtremes */
function beyondRecords(name: keyof typeof RANGES, values: Float64Array, add: FindingsAbout): void {
  const { lowest, highest, unit } = RANGES[name];
  const beyond = stretchesOf(values.length, (i) => values[i]! < lowest || values[i]! > highest);
  const effect = name === 'air_degC' ? 'taken as missing' : 'kept';
  const can = `where ${lowest} to ${highest} ${unit} can be`;
  add.each('beyond-records', beyond, effect, ({ from }) => `${tenths(values[from]!)} ${unit}, ${can}`);
}

/** Up and down again (or down and up) by more than this within two hours is a fault; common practice, no source. */
const SPIKE_K = 20;
const LONGEST_STILL_H = 30;
const LONGEST_STILL_COARSE_H = 60;

/**
 * Air temperatures that nobody measured become NaN: spikes of an hour, one value for 30 hours and more (for 60 where
 * temperatures are whole degrees).
 */
function oddAir(air_degC: Float64Array, add: FindingsAbout): void {
  const isSpike = (i: number): boolean => {
    const before = air_degC[i]! - (air_degC[i - 1] ?? Number.NaN);
    const after = air_degC[i]! - (air_degC[i + 1] ?? Number.NaN);
    return before * after > 0 && Math.min(Math.abs(before), Math.abs(after)) > SPIKE_K;
  };
  const text = ({ from }: Stretch): string => `${tenths(air_degC[from]!)} degC`;
  add.each('air-spike', stretchesOf(air_degC.length, isSpike), 'taken as missing', text);
  const still_h = resolutionOf(air_degC) > 0.45 ? LONGEST_STILL_COARSE_H : LONGEST_STILL_H;
  add.each('air-repeated', equalRuns(air_degC, still_h), 'taken as missing', (run) => {
    return `${text(run)} in ${run.to - run.from} hours running`;
  });
}
