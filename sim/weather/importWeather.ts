import { fixOf, InputProblem, type Problem } from '../common/InputProblem.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { TableSource } from '../tables/TableSource.ts';
import { DAYLIGHT_LM_W } from '../tables/units.ts';
import type { ClockTrust, ResolvedClock } from './clock/resolveClock.ts';
import { resolveClock } from './clock/resolveClock.ts';
import { middleText, stopNotes, zoneNotes } from './clock/stampReadings.ts';
import { type SunClockCheck, sunClockCheck } from './clock/sunClockCheck.ts';
import { type FilledColumns, fillGaps } from './gaps/fillGaps.ts';
import { calendarNotes, withLostEnd } from './gaps/lostEnd.ts';
import { keepMarks, markThroughout, recordOf } from './gaps/recordOf.ts';
import { type UsableStretch, usableStretch } from './gaps/usableStretch.ts';
import { type NormalFormPlace, ownRecord } from './normalForm.ts';
import { examineQuality, type QualityReport } from './quality/examineQuality.ts';
import { problemsOfFindings } from './quality/Finding.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import { globalOfParts, partOfSeries } from './read/NativeSeries.ts';
import { readRecognised } from './read/readRecognised.ts';
import { hoursOfDays, toHourly } from './read/toHourly.ts';
import { refuseUnitsOfRecord } from './recognise/chooseUnit.ts';
import type { ColumnChoice, DetectedFormat } from './recognise/DetectedFormat.ts';
import { type RecogniseOptions, recognise } from './recognise/recognise.ts';
import { columnsOf, type HourlyColumns, hoursWithin, type WeatherRecord } from './WeatherRecord.ts';

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
 *
 * in: sources, the files of one record; options, each of which wins over what the files say
 * out: the record (left out where no day is usable: report.stretch says why) and the report
 * throws: what recognise and readRecognised throw, SCENARIO_MISSING_KEY where nobody says the place, WEATHER_CLOCK
 * where file and sun disagree, WEATHER_AMBIGUOUS where neither settles what stamps mean, WEATHER_SUN_DOWN and
 * WEATHER_VALUE_OUT_OF_RANGE where many hours cannot be
 */
export async function importWeather(
  sources: readonly TableSource[],
  options: ImportOptions = {},
): Promise<UnderstoodWeather> {
  const understood = new Map<string, string>();
  try {
    return await understand(sources, { ...options, onUnderstood: (what, how) => understood.set(what, how) });
  } catch (error) {
    if (!(error instanceof InputProblem) || error.understood !== '') throw error;
    throw new InputProblem(
      error.problems,
      Array.from(understood, ([what, how]) => `${what} ${how}`).join('; '),
    );
  }
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
  const recognition = await recognise(sources, options);
  const own = ownRecord(sources);
  const site = placeOf(recognition, options, own?.place);
  options.onUnderstood?.('place', `${site.latitude_deg}, ${site.longitude_deg}`);
  const whole = await readRecognised(sources, recognition, {
    longitude_deg: site.longitude_deg,
    onProgress: options.onProgress,
  });
  const { from_ms = Number.NEGATIVE_INFINITY, to_ms = Number.POSITIVE_INFINITY } = options;
  const part = globalOfParts(partOfSeries(whole, from_ms - BESIDE_MS, to_ms + BESIDE_MS));
  const byDay = whole.fileStep_s * 1000 === DAY_MS;
  const series = byDay ? hoursOfDays(part, site, recognition.stamp.zone.kind === 'unstated') : part;
  const name = recognition.files.map((file) => file.name).join(', ');
  if (whole.stamp_ms.length < 2) throw oneRow(name, whole.stamp_ms.length);
  if (series.stamp_ms.length < 2) throw nothingWithin(name, whole.stamp_ms);
  refuseUnitsOfRecord(name, series, recognition.columns, site);
  const clockCheck = sunClockCheck({
    stamp_ms: series.stamp_ms,
    step_s: series.step_s,
    ghi_W_m2: lightOf(series),
    latitude_deg: site.latitude_deg,
    longitude_deg: site.longitude_deg,
  });
  const clock = byDay
    ? CLOCK_OF_DAYS
    : resolveClock(name, series, recognition.stamp, clockCheck, {
        trust: options.believe ?? 'neither',
        longitude_deg: site.longitude_deg,
      });
  if (clock.zone !== undefined) {
    // The zone was accepted: read again with it; the sun must agree then.
    const again = await understand(sources, { ...options, zone: clock.zone });
    again.report.options.clock = `${clock.words}; ${again.report.options.clock}`;
    return again;
  }
  const read = hourlyColumns(series, clock, site, { from_ms, to_ms });
  const { columns: hourly, lost_h } = withLostEnd(read, site.longitude_deg);
  const quality = examineQuality(hourly, site, { drawn: byDay });
  const refused = problemsOfFindings(name, quality.findings);
  if (refused.length > 0) throw new InputProblem(refused);
  const gapless = fillGaps(quality.columns, quality.light);
  const ofParts = whole.columns.bhi === undefined ? gapless : markThroughout(gapless, 'closed');
  const made = byDay ? markThroughout(gapless, 'day-sum') : ofParts;
  const filled = own === undefined ? made : keepMarks(made, own.record);
  const stretch = usableStretch(filled, {
    acceptFilled: options.acceptFilled ?? false,
    latitude_deg: site.latitude_deg,
  });
  const described = describe(recognition, series, clock, options);
  if (byDay) described.hours = OF_DAYS;
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
  described.stretch = stretch.reason;
  const record = recordOf(filled, {
    from: stretch.from,
    to: stretch.to,
    site,
    constant_degC: options.constant_degC,
    origin: { file: name, sha256: series.sha256, options: described },
  });
  report.options = record.origin.options;
  return { record, report };
}

function placeOf(
  { site: said, files }: DetectedFormat,
  options: ImportOptions,
  own: NormalFormPlace | undefined,
): WeatherReport['site'] {
  const latitude_deg = options.place?.latitude_deg ?? own?.latitude_deg ?? said.latitude_deg;
  const longitude_deg = options.place?.longitude_deg ?? own?.longitude_deg ?? said.longitude_deg;
  if (latitude_deg === undefined || longitude_deg === undefined) {
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
  return {
    latitude_deg,
    longitude_deg,
    elevation_m: options.place?.elevation_m ?? own?.elevation_m ?? said.elevation_m ?? 0,
  };
}

/** A row alone does not say how long its interval is. */
function oneRow(file: string, rows: number): InputProblem {
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    got: `${rows === 0 ? 'no row' : 'one row'} with a time`,
    expected: 'rows one after the other, an hour or less apart',
    fix: 'export the whole record by the hour, with a time of day in each row; sums of days do not say when the light came.',
  });
}

/** No part of the record is asked for, but another time. */
function nothingWithin(file: string, stamp_ms: Float64Array): InputProblem {
  const [first, last] = [stamp_ms[0]!, stamp_ms.at(-1)!].map((ms) => new Date(ms).toISOString().slice(0, 10));
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    got: 'no rows between --from and --to',
    expected: `dates within ${first} to ${last}, which the rows cover`,
    ...fixOf([`--from ${first} --to ${last}`]),
  });
}

/** Global irradiance, or what shows the day as well where there is none. */
function lightOf(series: NativeSeries): Float64Array {
  const { ghi, dni, dhi } = series.columns;
  return ghi ?? dhi!.map((value, i) => value + 0.3 * dni![i]!);
}

/** Hours under the resolved clock, without empty ones at the ends. */
function hourlyColumns(
  series: NativeSeries,
  clock: ResolvedClock,
  site: WeatherReport['site'],
  { from_ms, to_ms }: { from_ms: number; to_ms: number },
): HourlyColumns {
  let moved = series;
  let offset_min = clock.offset_min;
  if (clock.stretches.length > 0) {
    const stamp_ms = series.stamp_ms.map((ms) => {
      const stretch = clock.stretches.findLast(({ from_ms }) => from_ms <= ms) ?? clock.stretches[0]!;
      return ms - stretch.offset_min * 60_000;
    });
    moved = { ...series, stamp_ms };
    offset_min = 0;
  }
  const { start_ms, count, columns } = toHourly(moved, offset_min, site);
  const all = Object.values(columns);
  const filled = (i: number): boolean => all.some((values) => !Number.isNaN(values[i]!));
  let from = Math.max(0, Math.ceil((from_ms - start_ms) / HOUR_MS));
  let to = Math.min(count, Math.floor((to_ms - start_ms) / HOUR_MS));
  while (from < to && !filled(from)) from++;
  while (to > from && !filled(to - 1)) to--;
  const { ghi_W_m2 = new Float64Array(count).fill(Number.NaN), ...others } = columnsOf(columns);
  return hoursWithin({ start_ms, count, ghi_W_m2, ...others }, from, to);
}

/** How everything was read, in words. */
function describe(
  recognition: DetectedFormat,
  series: NativeSeries,
  clock: ResolvedClock,
  said: ImportOptions,
): Record<string, string> {
  const { stamp, columns, encoding, gzip } = recognition;
  const { layout } = recognition.files[0]!;
  const delimiters = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars', ' ': 'blanks' } as const;
  const decimal = layout.decimal === ',' ? 'decimal commas' : 'decimal points';
  const heading =
    layout.headingLine === undefined ? 'no heading row' : `heading on line ${layout.headingLine}`;
  const step = stamp.irregular ? 'irregular times' : `steps of ${stamp.step_s} s`;
  const options: Record<string, string> = {
    layout: `${encoding}${gzip ? ', gzip' : ''}, cut at ${delimiters[layout.delimiter]}, ${decimal}, ${heading}, rows from line ${layout.firstDataLine}`,
    stamp: `${stamp.style}; ${step}${stamp.descending ? ', newest first' : ''}${stamp.typicalYear ? '; months of different years, laid on 2001' : ''}`,
    zone: stamp.zone.words,
    marks: stamp.label.words,
    clock: `${clock.words}${clock.stretches.length > 0 ? '' : `; ${middleText(clock.offset_min)}`}`,
  };
  for (const choice of columns) options[choice.quantity.replaceAll('_', ' ')] = columnText(choice);
  const codes = Object.entries(series.missing).map(
    ([quantity, counts]) =>
      `${quantity.replaceAll('_', ' ')}: ${Object.entries(counts)
        .map(([code, count]) => `${code} (${count})`)
        .join(', ')}`,
  );
  options['missing codes'] = codes.join('; ') || 'none';
  if (said.believe === 'sun' || said.believe === 'file')
    options.believe = `the ${said.believe}, as the user states`;
  if (said.acceptFilled === true)
    options['accept filled'] = 'months of which much is filled, as the user states';
  return options;
}

function columnText({ heading, column, unit, reason, unitReason }: ColumnChoice): string {
  const name = heading === '' ? `column ${column + 1}` : `column "${heading}"`;
  const approximate = unit === 'lx' || unit === 'klx' ? ` at ${DAYLIGHT_LM_W} lm/W, good to 10 percent` : '';
  const fromHeading = reason === `the heading "${heading}"`;
  const unitFromHeading = unitReason.startsWith('the heading says');
  if (fromHeading && unitFromHeading) return `${name} in ${unit}${approximate}, as its heading says`;
  return `${name} in ${unit}${approximate}: ${fromHeading ? 'by its heading' : reason}; unit: ${unitFromHeading ? 'by its heading' : unitReason}`;
}
