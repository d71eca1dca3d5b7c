import { InputProblem, type Problem } from '../common/InputProblem.ts';
import { type ProblemList, problemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import { hourGrid } from '../tables/hourGrid.ts';
import { refuseGaps } from '../tables/hourlyTable.ts';
import {
  fromCanonical,
  IRRADIANCE_UNITS,
  TEMPERATURE_UNITS,
  toCanonical,
  type UnitName,
} from '../tables/units.ts';
import { wrapped } from './clock/negativeLogLikelihood.ts';
import type { ResolvedClock } from './clock/resolveClock.ts';
import { readingsText, zoneTyped } from './clock/stampReadings.ts';
import type { SunClockCheck } from './clock/sunClockCheck.ts';
import { HIGHEST_NIGHT_W_M2, highestPossible, LOWEST_IRRADIANCE_W_M2, RANGES } from './limits.ts';
import { type SunLight, sunLight } from './quality/SunLight.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import type { ColumnChoice, DetectedFormat } from './recognise/DetectedFormat.ts';

/** The hours of a file whose mapping is stated, as they stand in it. */
interface StatedHours {
  start_ms: number;
  count: number;
  columns: NativeSeries['columns'];
  /** The sun over them. */
  light: SunLight;
}

/** What a file whose mapping is stated is held against. */
interface Stated {
  file: string;
  series: NativeSeries;
  recognition: DetectedFormat;
  /** Stamps of the series less these are the middles of its hours. */
  clock: ResolvedClock;
  clockCheck: SunClockCheck;
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>;
}

/**
 * The hours of a file whose mapping is stated whole. What an import would mend is refused by its line: rows that do
 * not follow each other hour by hour, missing values, what a sensor's offset and the sun, or the records of the world,
 * do not allow, and light at night.
 *
 * in: stated
 * out: the hours, row i being hour i
 * throws: WEATHER_STAMP_UNREADABLE, WEATHER_GAP, WEATHER_VALUE_OUT_OF_RANGE, WEATHER_SUN_DOWN; all problems together
 * source: LongDutton2002; ISO9060; WMOExtremes
 */
export function statedHours(stated: Stated): StatedHours {
  const { file, series, recognition, clock, site } = stated;
  const problems = problemList();
  const heading = (column: number): string => recognition.files[0]!.layout.headings[column] ?? '';
  const shift_ms = clock.offset_min * 60_000 + HOUR_MS / 2;
  const time_ms = Array.from(series.stamp_ms, (ms) => ms - shift_ms);
  const line = Array.from(series.line);
  const field = heading(recognition.stamp.parts[0]!.column);
  const grid = hourGrid({ file, field, time_ms, line }, problems);
  for (const choice of recognition.columns) {
    const place = { file, field: choice.heading, column: choice.column + 1 };
    const missing = Uint8Array.from(series.columns[choice.quantity]!, (value) =>
      Number.isNaN(value) ? 1 : 0,
    );
    refuseGaps(place, missing, time_ms, line, problems);
  }
  if (grid === undefined) throw new InputProblem(problems.list());
  const light = sunLight(grid.start_ms, grid.count, site);
  for (const choice of recognition.columns) {
    const hours = {
      ...stated,
      choice,
      values: series.columns[choice.quantity]!,
      light,
      start_ms: grid.start_ms,
    };
    refuseImpossible(hours, problems);
    if (isIrradiance(choice)) refuseAtNight(hours, problems);
  }
  problems.throwIfAny();
  return { ...grid, columns: series.columns, light };
}

/**
 * Refuses rows that do not come by the hour.
 *
 * in: file, its name; recognition
 * throws: WEATHER_STAMP_UNREADABLE
 */
export function refuseOtherSteps(file: string, { files, stamp }: DetectedFormat): void {
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

/** One column of a stated file beside the sun. */
interface StatedColumn extends Stated {
  choice: ColumnChoice;
  values: Float64Array;
  light: SunLight;
  start_ms: number;
}

const IRRADIANCES = ['ghi', 'dni', 'dhi'] as const;

function isIrradiance({ quantity }: ColumnChoice): boolean {
  return IRRADIANCES.some((name) => name === quantity);
}

/** Puts values that cannot be on the list. */
function refuseImpossible(column: StatedColumn, problems: ProblemList): void {
  const { choice, values, light } = column;
  const { sun } = light;
  const irradiance = IRRADIANCES.find((name) => name === choice.quantity);
  const range = RANGES[choice.quantity];
  if (irradiance === undefined && range === undefined) return;
  const lowest = irradiance === undefined ? range!.lowest : LOWEST_IRRADIANCE_W_M2;
  const highest = (i: number): number =>
    irradiance === undefined
      ? range!.highest
      : highestPossible(irradiance, sun.extraterrestrial_W_m2[i]!, sun.altitude_deg[i]!);
  const unit = choice.unit;
  const shown = irradiance === undefined ? range!.unit : 'W/m2';
  const outside = [...values.keys()].filter((i) => values[i]! < lowest || values[i]! > highest(i));
  // A few wrong values are faults; many are a wrong unit, or, of irradiance far from noon only, a wrong clock.
  const suspects =
    irradiance === undefined ? outside : outside.filter((i) => Math.abs(sun.hourAngle_deg[i]! + 7.5) < 40);
  const better =
    suspects.length > values.length / 100 ? fittingUnit(values, unit, lowest, highest) : undefined;
  for (const i of outside) {
    problems.add(`limit ${choice.quantity}`, () => {
      const inFile = Number(fromCanonical(values[i]!, unit, 3600).toPrecision(12));
      const inOurs = unit === shown ? '' : ` (${round(values[i]!)} ${shown})`;
      const limits = `${round(lowest)} to ${round(highest(i))} ${shown}`;
      const isCode = /^-|^9+(\.9*)?$/.test(String(inFile));
      return {
        ...placeOf(column, i),
        code: 'WEATHER_VALUE_OUT_OF_RANGE',
        got: `${inFile} ${unit}${inOurs} ${hourText(column, i)}`,
        expected:
          irradiance === undefined
            ? limits
            : `${limits} with the sun at ${round(sun.altitude_deg[i]!)} degrees`,
        fix:
          better !== undefined
            ? `are latitude and longitude right, with their signs? If so, is the column in ${better}? Then set weather.columns.${choice.quantity}.unit: ${better}.`
            : isCode
              ? `if ${inFile} stands for 'missing', add "${inFile}" to weather.missing; else correct the value.`
              : ((irradiance && clockHint(column)) ?? 'correct the value.'),
      };
    });
  }
}

/** Puts light while the sun is down on the list. */
function refuseAtNight(column: StatedColumn, problems: ProblemList): void {
  const { choice, values, light } = column;
  for (const [i, value] of values.entries()) {
    if (light.dark[i] === 0 || !(value > HIGHEST_NIGHT_W_M2)) continue;
    problems.add(`sun down ${choice.quantity}`, () => {
      const same = runOf(values, i);
      return {
        ...placeOf(column, i),
        code: 'WEATHER_SUN_DOWN',
        got: `${round(value)} W/m2 ${hourText(column, i)}, with the sun at ${Math.round(light.sun.altitude_deg[i]!)} degrees`,
        expected: `at most ${HIGHEST_NIGHT_W_M2} W/m2 while the sun is more than 6 degrees below the horizon`,
        fix:
          same > 3
            ? `the same value stands in ${same} rows running: a gap that somebody filled; treat it as missing.`
            : (clockHint(column) ?? "correct the values, or name the code that says 'missing'."),
      };
    });
  }
}

/** How many rows running hold the value of row i. */
function runOf(values: Float64Array, i: number): number {
  let [from, to] = [i, i];
  while (from > 0 && values[from - 1] === values[i]) from--;
  while (to < values.length - 1 && values[to + 1] === values[i]) to++;
  return to - from + 1;
}

/** A clock is worth a word from half an hour on. */
const CLOCK_OFF_MIN = 30;

/** What to correct about a clock that the sun gainsays; undefined where it agrees or cannot tell. */
function clockHint({ clock, clockCheck, recognition }: StatedColumn): string | undefined {
  const { zone, label } = recognition.stamp;
  const { reading } = clockCheck;
  const off_min = wrapped(reading.offset_min - clock.offset_min);
  if (reading.verdict === 'undecided' || Math.abs(off_min) < CLOCK_OFF_MIN) return undefined;
  const whole = clock.choices.filter(({ clockAhead_min }) => clockAhead_min % 60 === 0);
  const sameMark = whole.find(({ marks }) => marks === label.label);
  const sameClock = whole.find(({ clockAhead_min }) => clockAhead_min === 0);
  const fits = (text: string | undefined) => (text === undefined ? '' : ` (${text} would fit)`);
  const checked = [
    `weather.stamp.marks${fits(sameClock?.marks)}`,
    zone.kind === 'fixed'
      ? `weather.stamp.zone${fits(sameMark && zoneTyped(zone.offset_min + sameMark.clockAhead_min))}`
      : 'the offset the stamps state',
    'the site and the sign of its longitude',
  ];
  const seen = whole.length === 0 ? '' : ` (by the sun, stamps ${readingsText(whole.slice(0, 2))})`;
  const away = Math.round(Math.abs(off_min) / 30) / 2;
  return `the light stands about ${away} ${away === 1 ? 'hour' : 'hours'} ${off_min > 0 ? 'late' : 'early'} beside the sun${seen}; check ${checked.join(', ')}.`;
}

/** Another unit of the same quantity in which every value would be possible, the nearest to the stated one. */
function fittingUnit(
  values: Float64Array,
  unit: UnitName,
  lowest: number,
  highest: (i: number) => number,
): UnitName | undefined {
  const families: readonly (readonly UnitName[])[] = [IRRADIANCE_UNITS, TEMPERATURE_UNITS];
  const family = families.find((units) => units.includes(unit)) ?? [];
  const fits = family.filter(
    (other) =>
      other !== unit &&
      values.every((value, i) => {
        const read = toCanonical(fromCanonical(value, unit, 3600), other, 3600);
        return !(read < lowest || read > highest(i));
      }),
  );
  // The one that keeps the values largest: a smaller unit would always fit.
  return fits.toSorted((a, b) => toCanonical(1000, b, 3600) - toCanonical(1000, a, 3600))[0];
}

function placeOf(
  { file, series, choice }: StatedColumn,
  i: number,
): Pick<Problem, 'file' | 'line' | 'field'> {
  return { file, line: series.line[i]!, field: choice.heading };
}

function hourText({ start_ms }: StatedColumn, i: number): string {
  return `in the hour from ${utcText(start_ms + i * HOUR_MS)}`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
