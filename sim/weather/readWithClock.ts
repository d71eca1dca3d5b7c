import { dateText } from '../common/civilTime.ts';
import { fixOf, InputProblem } from '../common/InputProblem.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import type { TableSource } from '../tables/TableSource.ts';
import { type Place, refusePlace } from './clock/checkSiteBySun.ts';
import type { ClockTrust, ResolvedClock } from './clock/resolveClock.ts';
import { resolveClock } from './clock/resolveClock.ts';
import { claimText, seenText } from './clock/stampReadings.ts';
import { type SunClockCheck, sunClockCheck } from './clock/sunClockCheck.ts';
import { type NormalFormPlace, ownRecord } from './normalForm.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import { globalOfParts, partOfSeries } from './read/NativeSeries.ts';
import { readRecognised } from './read/readRecognised.ts';
import { hoursOfDays } from './read/toHourly.ts';
import type { DetectedFormat } from './recognise/DetectedFormat.ts';
import { type RecogniseOptions, recognise } from './recognise/recognise.ts';
import { refuseUnitsOfRecord, unitInDoubt } from './recognise/unitInDoubt.ts';

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
/** Hours laid out by the sun say nothing of a clock. */
const CLOCK_OF_DAYS: ResolvedClock = {
  offset_min: -30,
  stretches: [],
  choices: [],
  words: 'days, as the file dates them; the sun cannot prove them',
};

/** Files read in their columns, with what their stamps mean. */
export interface Reading {
  name: string;
  recognition: DetectedFormat;
  /** A file of the normal form, as it was written. */
  own: ReturnType<typeof ownRecord>;
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>;
  series: NativeSeries;
  /** Its rows were days. */
  byDay: boolean;
  clockCheck: SunClockCheck;
  /** Stamps of the series less its offset are the middles of its rows. */
  clock: ResolvedClock;
}

/**
 * Files of one record recognised, read in one pass, and their clock proved against the sun.
 *
 * in: sources, of one record; options
 * throws: as `importWeather`, but for what the hours themselves cannot be
 */
export async function readWithClock(
  sources: readonly TableSource[],
  options: ImportOptions,
): Promise<Reading> {
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
  if (series.stamp_ms.length < 2) throw tooFewRows(name, whole);
  // A clock that is stated stands: what the sun says of it is a note, for which some days will do.
  const asked = lightOf(series, strict ? DAYS_FOR_A_NOTE : Number.POSITIVE_INFINITY);
  const clockCheck = sunClockCheck({ ...asked, step_s: series.step_s, latitude_deg, longitude_deg });
  const trust = options.believe ?? (strict ? 'file' : 'neither');
  // Light that no unit of the file explains at a place, but its own at another one, is a place that is wrong.
  const inUnitsAt = (place: Place) =>
    recognition.columns.every((choice) => unitInDoubt(series, choice, place) === undefined);
  if (!byDay && trust === 'neither' && clockCheck.site.slips.some(inUnitsAt))
    refusePlace(name, clockCheck.site);
  refuseUnitsOfRecord(name, series, recognition.columns, site);
  const resolved = byDay
    ? CLOCK_OF_DAYS
    : resolveClock(name, series, recognition.stamp, clockCheck, { trust, longitude_deg });
  const words = `as the user states, ${claimText(recognition.stamp)}; by the sun, ${seenText(clockCheck)}`;
  const clock = strict && options.believe === undefined ? { ...resolved, words } : resolved;
  return { name, recognition, own, site, series, byDay, clockCheck, clock };
}

/** The place that the user says, else the file of the normal form, else the file. */
function placeOf(
  { site: said, files }: DetectedFormat,
  { place }: ImportOptions,
  own: NormalFormPlace | undefined,
): Reading['site'] {
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
function tooFewRows(file: string, { stamp_ms, fileStep_s }: NativeSeries): InputProblem {
  const [first = 0, last = 0] = [stamp_ms[0], stamp_ms.at(-1)];
  const dates = [first, last].map(dateText);
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file,
    ...(stamp_ms.length < 2
      ? {
          got:
            fileStep_s === 0
              ? 'rows at irregular times, more than half an hour apart'
              : `${stamp_ms.length === 0 ? 'no row' : 'one row'} with a time`,
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

/** A file whose mapping is stated whole is read by the hour. */
function refuseOtherSteps(file: string, { files, stamp }: DetectedFormat): void {
  if (stamp.step_s === 3600) return;
  const { headings, firstDataLine } = files[0]!.layout;
  const field = headings[stamp.parts[0]!.column];
  throw new InputProblem({
    code: 'WEATHER_STAMP_UNREADABLE',
    file,
    line: firstDataLine + 1,
    ...(field ? { field } : {}),
    got: stamp.irregular ? 'rows at irregular times' : `rows ${stamp.step_s / 60} minutes apart`,
    expected: 'one row an hour',
    fix: 'give hourly means, or take stamp and columns away: then rows are joined to hours.',
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
