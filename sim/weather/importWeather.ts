import { dateText } from '../common/civilTime.ts';
import { fixOf, InputProblem, type Problem } from '../common/InputProblem.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import { bytesSource, type NamedBytes, type TableSource } from '../tables/TableSource.ts';
import type { ClockTrust, ResolvedClock } from './clock/resolveClock.ts';
import { resolveClock } from './clock/resolveClock.ts';
import { claimText, seenText, stopNotes, zoneNotes } from './clock/stampReadings.ts';
import { type SunClockCheck, sunClockCheck } from './clock/sunClockCheck.ts';
import { describeReading } from './describeReading.ts';
import { type FilledColumns, fillGaps } from './gaps/fillGaps.ts';
import { calendarNotes, withLostEnd } from './gaps/lostEnd.ts';
import { recordOf } from './gaps/recordOf.ts';
import { type UsableStretch, usableStretch, wholeRecord } from './gaps/usableStretch.ts';
import { type NormalFormPlace, ownRecord } from './normalForm.ts';
import { examineQuality, type QualityReport } from './quality/examineQuality.ts';
import { FINDING_KINDS, problemsOfFindings } from './quality/Finding.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import { globalOfParts, partOfSeries } from './read/NativeSeries.ts';
import { readRecognised } from './read/readRecognised.ts';
import { type HourlyWithGaps, hoursOfDays, toHourly } from './read/toHourly.ts';
import type { DetectedFormat } from './recognise/DetectedFormat.ts';
import { type RecogniseOptions, recognise } from './recognise/recognise.ts';
import { refuseUnitsOfRecord } from './recognise/unitInDoubt.ts';
import { refuseOtherSteps, statedHours, statedProblems } from './statedHours.ts';
import {
  columnsOf,
  type HourlyColumns,
  hoursWithin,
  WEATHER_MARKS,
  type WeatherRecord,
} from './WeatherRecord.ts';

/** What the user says about a weather file. */
export interface ImportOptions extends RecogniseOptions {
  /** A part of the record, UTC: hours from `from_ms` until before `to_ms`. */
  from_ms?: number | undefined;
  to_ms?: number | undefined;
  /** Whom to believe where file and sun disagree; nobody by default, which refuses. */
  believe?: ClockTrust | undefined;
  /** Take months of which much is filled. */
  acceptFilled?: boolean | undefined;
  /** Temperature for hours without one. */
  constant_degC?: number | undefined;
  onProgress?: ((done: number, total: number) => void) | undefined;
}

/** Stamps may stand so far beside their interval: a clock that is off, in part of an hour. */
const BESIDE_MS = 15 * HOUR_MS;

/** Everything that was understood of a weather file, for reports. */
export interface WeatherReport {
  site: { latitude_deg: number; longitude_deg: number; elevation_m: number };
  recognition: DetectedFormat;
  files: NativeSeries['files'];
  clock: ResolvedClock;
  clockCheck: SunClockCheck;
  quality: QualityReport;
  filled: FilledColumns;
  /** The stretch of it that the record is, or why there is none. */
  stretch: UsableStretch | { problem: Problem };
  /** Cells that said 'missing', by quantity and code. */
  missing: NativeSeries['missing'];
  /** What was passed over, and what the calendar brings, in sentences. */
  notes: string[];
  /** How everything was read, in words; the same as in the record's origin. */
  options: Record<string, string>;
}

/** A weather file understood: the record where it holds a day and more, and the report in any case. */
export interface UnderstoodWeather {
  record?: WeatherRecord;
  report: WeatherReport;
}

/**
 * Any hourly-ish weather export understood: recognised, read in one pass, its clock proved against the sun, checked,
 * gaps filled as far as may be, and the longest usable stretch taken from it, in canonical units (W/m2, degC, m, mm, m/s).
 * With `strict` a file is taken by the user's word instead: only the stated columns, by the hour, their clock a note
 * beside the sun; what would be mended is refused by its line, but for a few hours lost at an end of a year.
 *
 * in: files of one record, from the disk (fileSource) or in memory; options, each of which wins over what the files say
 * out: the record (left out where no day is usable: report.stretch says why) and the report with all that was found
 * throws: what recognise and readRecognised throw, SCENARIO_MISSING_KEY where nobody says the place, WEATHER_CLOCK
 * where file and sun disagree, WEATHER_AMBIGUOUS where neither settles what stamps mean, WEATHER_SUN_DOWN and
 * WEATHER_VALUE_OUT_OF_RANGE where many hours cannot be; with strict WEATHER_GAP, WEATHER_DUPLICATE and the like too
 * @example importWeather([{ name: 'hours.csv', bytes: Buffer.from('time,light\n2021-06-10 11:00,700\n2021-06-10 12:00,750\n') }], { place: { latitude_deg: 54, longitude_deg: 10 }, strict: true, stamp: 'time', zone: 'UTC', marks: 'start', columns: { ghi: 'light' }, units: { ghi: 'W/m2' } }).then(({ record }) => [...record.ghi_W_m2]); // => [700, 750]
 */
export async function importWeather(
  files: readonly (TableSource | NamedBytes)[],
  options: ImportOptions = {},
): Promise<UnderstoodWeather> {
  const sources = files.map((file) => ('bytes' in file ? bytesSource(file) : file));
  const understood = new Map<string, string>();
  try {
    return await understand(sources, { ...options, onUnderstood: (what, how) => understood.set(what, how) });
  } catch (error) {
    if (!(error instanceof InputProblem) || error.understood !== '') throw error;
    throw new InputProblem(
      understood.has('JSON') ? error.problems.map(inTable) : error.problems,
      Array.from(understood, ([what, how]) => `${what} ${how}`).join('; '),
    );
  }
}

/** Lines of a table that JSON was laid out as are none of the file. */
function inTable(problem: Problem): Problem {
  const { file, line } = problem;
  return file === undefined || line === undefined ? problem : { ...problem, file: `${file}, its table` };
}

/** Hours laid out by the sun say nothing of a clock. */
const CLOCK_OF_DAYS: ResolvedClock = {
  offset_min: -30,
  stretches: [],
  choices: [],
  words: 'days, as the file dates them; the sun cannot prove them',
};
const OF_DAYS =
  'laid out over each day by the average shape of days, each day keeping its light (on a made-up year 12 failed nights where hours gave 9, 18 where they gave 18)';

async function understand(
  sources: readonly TableSource[],
  options: ImportOptions,
): Promise<UnderstoodWeather> {
  const reading = await readWithClock(sources, options);
  const { clock } = reading;
  if (clock.zone !== undefined) {
    // The zone was accepted: read again with it; the sun must agree then.
    const again = await understand(sources, { ...options, zone: clock.zone });
    again.report.options.clock = `${clock.words}; ${again.report.options.clock}`;
    return again;
  }
  return recordAndReport(reading, checkedHours(reading, options), options);
}

/** A file read in its columns, with what its stamps mean; `byDay` where its rows were days. */
type Reading = Awaited<ReturnType<typeof readWithClock>>;

async function readWithClock(sources: readonly TableSource[], options: ImportOptions) {
  const { from_ms, to_ms, strict, missing } = options;
  const recognition = await recognise(sources, options);
  const name = recognition.files.map((file) => file.name).join(', ');
  if (strict) refuseOtherSteps(name, recognition);
  const own = strict ? undefined : ownRecord(sources);
  const site = placeOf(recognition, options, own?.place);
  const { latitude_deg, longitude_deg } = site;
  options.onUnderstood?.('place', `${latitude_deg}, ${longitude_deg}`);
  const { onProgress } = options;
  const whole = await readRecognised(sources, recognition, { longitude_deg, missing, strict, onProgress });
  const part = globalOfParts(
    partOfSeries(
      whole,
      (from_ms ?? Number.NEGATIVE_INFINITY) - BESIDE_MS,
      (to_ms ?? Number.POSITIVE_INFINITY) + BESIDE_MS,
    ),
  );
  const byDay = whole.fileStep_s * 1000 === DAY_MS;
  const series = byDay ? hoursOfDays(part, site, recognition.stamp.zone.kind === 'unstated') : part;
  if (series.stamp_ms.length < 2) throw tooFewRows(name, whole.stamp_ms);
  refuseUnitsOfRecord(name, series, recognition.columns, site);
  // A clock that is stated stands: what the sun says of it is a note, for which some days will do.
  const asked = lightOf(series, strict ? DAYS_FOR_A_NOTE : Number.POSITIVE_INFINITY);
  const clockCheck = sunClockCheck({ ...asked, step_s: series.step_s, latitude_deg, longitude_deg });
  const trust = options.believe ?? (strict ? 'file' : 'neither');
  const resolved = byDay
    ? CLOCK_OF_DAYS
    : resolveClock(name, series, recognition.stamp, clockCheck, { trust, longitude_deg });
  const words = `as the user states, ${claimText(recognition.stamp)}; by the sun, ${seenText(clockCheck)}`;
  const clock = strict && options.believe === undefined ? { ...resolved, words } : resolved;
  return { name, recognition, own, site, series, byDay, clockCheck, clock };
}

/**
 * Hours under the right clock (NaN missing, before the checks), what the checks made of them, how many were put to an
 * end that lacked them, and what was done to them in words, for the record's options.
 */
function checkedHours(reading: Reading, { strict = false, ...options }: ImportOptions) {
  const { name, site, byDay } = reading;
  const { series, clock } = onOneClock(reading);
  const hours = strict ? statedHours(reading) : toHourly(series, clock.offset_min, site);
  const { columns: hourly, lost_h } = withLostEnd(within(hours, options), site);
  const quality = examineQuality(hourly, site, { drawn: byDay, stated: strict });
  const { findings } = quality;
  const refused = strict
    ? statedProblems(reading, hours.start_ms, findings)
    : problemsOfFindings(name, findings);
  if (refused.length > 0) throw new InputProblem(refused);
  const words: Record<string, string> = byDay ? { hours: OF_DAYS } : {};
  for (const { kind, column, hours } of strict ? findings : []) {
    if (kind === 'night-offset')
      words[`${column.slice(0, 3)} offsets`] = `${hours} hours below zero, or above it at night, set to 0`;
  }
  const kept = findings.filter(({ effect }) => effect === 'kept as stated');
  const doubts = [...new Set(kept.map(({ kind }) => FINDING_KINDS[kind]))];
  if (doubts.length > 0) words['kept as stated'] = doubts.join('; ');
  return { hourly, lost_h, quality, words };
}

function recordAndReport(
  reading: Reading,
  { hourly, quality, lost_h, words }: ReturnType<typeof checkedHours>,
  options: ImportOptions,
): UnderstoodWeather {
  const { name, recognition, own, site, series, byDay, clockCheck, clock } = reading;
  const filled = fillGaps(quality.columns, quality.light, restsOf(reading, hourly));
  const { acceptFilled = false, constant_degC } = options;
  const stretch = options.strict
    ? wholeRecord(filled)
    : usableStretch(filled, { acceptFilled, latitude_deg: site.latitude_deg });
  const described = { ...describeReading(recognition, series, clock, options), ...words };
  const ownAir = own?.record.origin.options['air temperature'];
  if (ownAir !== undefined) described['air temperature'] = ownAir;
  const report: WeatherReport = {
    site,
    recognition,
    files: series.files,
    clock,
    clockCheck,
    quality,
    filled,
    stretch: 'problem' in stretch ? { problem: { file: name, ...stretch.problem } } : stretch,
    missing: series.missing,
    notes: [
      ...series.notes,
      ...(byDay ? [`One row a day: hours ${OF_DAYS}.`] : []),
      ...zoneNotes(recognition.stamp),
      ...stopNotes(clockCheck),
      ...calendarNotes(hourly, quality.light.dayShift_ms, lost_h),
    ],
    options: described,
  };
  if ('problem' in stretch) return { report };
  if (!options.strict) described.stretch = stretch.reason;
  const { from, to } = stretch;
  const origin = { file: name, sha256: series.sha256, options: described };
  const record = recordOf(filled, { from, to, site, constant_degC, origin });
  if (record.count === hourly.count) record.sun = quality.light.sun;
  report.options = record.origin.options;
  return { record, report };
}

/** What the hours rested on before this reading: the marks of a file of the normal form, sums of days or of parts. */
function restsOf({ own, byDay, recognition }: Reading, { start_ms, count }: HourlyColumns): Uint8Array {
  const ofParts = recognition.columns.some(({ quantity }) => quantity === 'bhi');
  const mark = byDay ? 'day-sum' : ofParts ? 'closed' : 'measured';
  const rests = new Uint8Array(count).fill(WEATHER_MARKS.indexOf(mark));
  if (own === undefined) return rests;
  const shift = (start_ms - own.record.start_ms) / HOUR_MS;
  return rests.map((measured, i) => own.record.mark[i + shift] ?? measured);
}

/** The place that the user says, else the file of the normal form, else the file. */
function placeOf(
  { site: said, files }: DetectedFormat,
  { place }: ImportOptions,
  own: NormalFormPlace | undefined,
): WeatherReport['site'] {
  const { latitude_deg, longitude_deg, elevation_m = 0 } = { ...said, ...own, ...place };
  if (latitude_deg !== undefined && longitude_deg !== undefined)
    return { latitude_deg, longitude_deg, elevation_m };
  throw new InputProblem({
    code: 'SCENARIO_MISSING_KEY',
    file: files[0]!.name,
    field: latitude_deg === undefined ? 'site.latitude_deg' : 'site.longitude_deg',
    got: 'no place, neither in the file nor beside it',
    expected: 'latitude and longitude, to prove the clock against the sun',
    ...fixOf(
      ['--place 54,10'],
      ' or the like, latitude and longitude, north and east positive; or --scenario, to take the place of one.',
    ),
  });
}

/** A row alone does not say how long its interval is; or no part of the record is asked for, but another time. */
function tooFewRows(file: string, stamp_ms: Float64Array): InputProblem {
  const [first = 0, last = 0] = [stamp_ms[0], stamp_ms.at(-1)];
  const dates = [first, last].map(dateText);
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    ...(stamp_ms.length < 2
      ? {
          got: `${stamp_ms.length === 0 ? 'no row' : 'one row'} with a time`,
          expected: 'rows one after the other, an hour or less apart',
          fix: 'export the whole record by the hour, with a time of day in each row; sums of days do not say when the light came.',
        }
      : {
          got: 'no rows between --from and --to',
          expected: `dates within ${dates.join(' to ')}, which the rows cover`,
          ...fixOf([`--from ${dates.join(' --to ')}`]),
        }),
  });
}

const DAYS_FOR_A_NOTE = 60;

/** Global irradiance, or what shows the day as well where there is none; of longer series days spread over it. */
function lightOf(
  { stamp_ms, columns: { ghi, dni, dhi } }: NativeSeries,
  mostDays: number,
): { stamp_ms: Float64Array; ghi_W_m2: Float64Array } {
  const light = ghi ?? dhi!.map((value, i) => value + 0.3 * dni![i]!);
  const day = (i: number): number => Math.floor((stamp_ms[i]! - stamp_ms[0]!) / DAY_MS);
  const every = Math.max(1, Math.ceil(day(stamp_ms.length - 1) / mostDays));
  const isAsked = (_: number, i: number): boolean => day(i) % every === 0;
  return every === 1
    ? { stamp_ms, ghi_W_m2: light }
    : { stamp_ms: stamp_ms.filter(isAsked), ghi_W_m2: light.filter(isAsked) };
}

/** A series under one clock: where the clock changes within it, with its stamps moved to the middles of their rows. */
function onOneClock({ series, clock }: Reading): { series: NativeSeries; clock: ResolvedClock } {
  if (clock.stretches.length === 0) return { series, clock };
  const stamp_ms = series.stamp_ms.map((ms) => {
    const stretch = clock.stretches.findLast(({ from_ms }) => from_ms <= ms) ?? clock.stretches[0]!;
    return ms - stretch.offset_min * 60_000;
  });
  return { series: { ...series, stamp_ms }, clock: { ...clock, offset_min: 0 } };
}

/** Hours of the part that is asked for, without empty ones at the ends. */
function within(
  { start_ms, count, columns }: HourlyWithGaps,
  { from_ms = Number.NEGATIVE_INFINITY, to_ms = Number.POSITIVE_INFINITY }: ImportOptions,
): HourlyColumns {
  const all = Object.values(columns);
  const filled = (i: number): boolean => all.some((values) => !Number.isNaN(values[i]!));
  let from = Math.max(0, Math.ceil((from_ms - start_ms) / HOUR_MS));
  let to = Math.min(count, Math.floor((to_ms - start_ms) / HOUR_MS));
  while (from < to && !filled(from)) from++;
  while (to > from && !filled(to - 1)) to--;
  const { ghi_W_m2 = new Float64Array(count).fill(Number.NaN), ...others } = columnsOf(columns);
  return hoursWithin({ start_ms, count, ghi_W_m2, ...others }, from, to);
}
