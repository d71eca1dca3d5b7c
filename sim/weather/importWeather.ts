import { InputProblem, type Problem } from '../common/InputProblem.ts';
import { HOUR_MS } from '../common/time.ts';
import { bytesSource, type NamedBytes, type TableSource } from '../tables/TableSource.ts';
import type { ResolvedClock } from './clock/resolveClock.ts';
import { stopNotes, yearNotes, zoneNotes } from './clock/stampReadings.ts';
import type { SunClockCheck } from './clock/sunClockCheck.ts';
import { describeReading } from './describeReading.ts';
import { type FilledColumns, fillGaps } from './gaps/fillGaps.ts';
import { calendarNotes, withLostEnd } from './gaps/lostEnd.ts';
import { recordOf } from './gaps/recordOf.ts';
import { type UsableStretch, usableStretch, wholeRecord } from './gaps/usableStretch.ts';
import { examineQuality, type QualityReport } from './quality/examineQuality.ts';
import { FINDING_KINDS, problemsOfFindings } from './quality/Finding.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import { type HourlyWithGaps, toHourly } from './read/toHourly.ts';
import { type ImportOptions, type Reading, readWithClock } from './readWithClock.ts';
import type { DetectedFormat } from './recognise/DetectedFormat.ts';
import { statedHours, statedProblems } from './statedHours.ts';
import {
  columnsOf,
  type HourlyColumns,
  hoursWithin,
  WEATHER_MARKS,
  type WeatherRecord,
} from './WeatherRecord.ts';

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
      ...recognition.marks.map((text) => `Marks: ${text}.`),
      ...series.notes,
      ...(byDay ? [`One row a day: hours ${OF_DAYS}.`] : []),
      ...zoneNotes(recognition.stamp),
      ...yearNotes(recognition.stamp),
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
