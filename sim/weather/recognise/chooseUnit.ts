import { least, max, mean, median, quantile, range, rollup } from 'd3-array';
import { quantileSorted } from 'simple-statistics';
import { log } from '../../common/elementary/log.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { fixOf, InputProblem, type Problem } from '../../common/InputProblem.ts';
import { DAY_MS, dayOfYear } from '../../common/time.ts';
import { sunsetAngle } from '../../sun/dayShape.ts';
import { extraterrestrialNormal } from '../../sun/extraterrestrialNormal.ts';
import type { Site } from '../../sun/Site.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import {
  fromCanonical,
  IRRADIANCE_UNITS,
  TEMPERATURE_UNITS,
  toCanonical,
  type UnitName,
} from '../../tables/units.ts';
import { usualAir } from '../gaps/fillAir.ts';
import type { NativeSeries } from '../read/NativeSeries.ts';
import { type ColumnChoice, isLight, type QuantityName } from './DetectedFormat.ts';
import { type StatedUnit, unitFromWords } from './unitFromWords.ts';
import { shortened, typed } from './words.ts';

/** The unit of a column and what it rests on. */
export interface UnitChoice extends StatedUnit {
  reason: string;
  byNumbers: boolean;
  /** Units that would do as well; more than none where the numbers do not settle it. */
  others: UnitName[];
}

/** What the numbers of a column are seen in. */
export interface Seen {
  /** As they stand in the file, codes for 'missing' taken out. */
  values: Float64Array;
  wall_ms: Float64Array;
  step_s: number;
  latitude_deg?: number | undefined;
}

const LIGHT_UNITS: readonly UnitName[] = ['W/m2', 'J/cm2', 'kJ/m2', 'kW/m2', 'MJ/m2', 'langley'];
/** Not guessed where another unit is stated: light that is no radiation, and what nobody uses without saying so. */
const UNGUESSED: ReadonlySet<UnitName> = new Set(['lx', 'klx', '0.1 W/m2', 'mW/m2', 'uW/cm2']);
/** What a light meter gives; considered only where the words speak of light, not of radiation. */
const LIGHT_METER_UNITS: readonly UnitName[] = ['klx', 'lx'];
/** Most that a clear noon lets through of the light outside the air, means and short steps. Common practice, no source. */
const CLEAREST = { mean: 1.15, short: 1.5 };

/**
 * The unit of a column: what its heading, the units row, its legend say, else what its numbers can be. Of light
 * the clearest days tell (highest value of a day over that outside the air at noon).
 *
 * in: texts that may state it, with where they stand; quantity; seen, the numbers
 * out: the unit; of light, `others` holds the others that would do, for the user to choose from
 */
export function chooseUnit(
  texts: readonly { text: string; where: string }[],
  quantity: QuantityName,
  seen: Seen,
): UnitChoice {
  for (const { text, where } of texts) {
    const stated = unitFromWords(text, quantity);
    if (stated === undefined || (stated.unit === 'degF' && isLooseF(text, seen.values))) continue;
    return { ...stated, reason: `the ${where} says "${shortened(text, 60)}"`, byNumbers: false, others: [] };
  }
  if (isLight(quantity)) {
    const ofLight = texts.some(({ text }) => /illumin|lux|\blicht|\blight|beleucht|eclairement/i.test(text));
    return lightByNumbers(quantity, seen, ofLight ? [...LIGHT_UNITS, ...LIGHT_METER_UNITS] : LIGHT_UNITS);
  }
  const sorted = Array.from(seen.values.filter((value) => !Number.isNaN(value)).sort());
  const rules = BY_SPREAD[quantity]!;
  if (sorted.length === 0) return byNumbers(rules.at(-1)![0], 'no values; the usual unit');
  const spread = spreadOf(sorted, seen);
  const [unit, , words] = rules.find(([, fits]) => fits(spread))!;
  const whole = spread.whole ? 'whole numbers from ' : '';
  return byNumbers(unit, `${whole}${round(spread.low)} to ${round(spread.high)}${words}`);
}

/** How far the numbers of a column reach, single ones at the ends left out of low and high. */
const spreadOf = (sorted: number[], seen: Seen) => ({
  low: quantileSorted(sorted, 0.02),
  high: quantileSorted(sorted, 0.98),
  most: sorted.at(-1)!,
  whole: sorted.every((value) => Number.isInteger(value)),
  seen,
});
type Spread = ReturnType<typeof spreadOf>;

/** What numbers can be where nobody says: the first unit whose rule fits, the usual one last. Common practice, no source. */
const BY_SPREAD: Partial<
  Record<QuantityName, readonly [unit: UnitName, fits: (spread: Spread) => boolean, words: string][]>
> = {
  air_temperature: [
    ['K', ({ low, high }) => low > 195 && high < 335, ' can only be kelvin'],
    ['0.1 degC', ({ whole, low, high }) => whole && (high > 130 || low < -90), ' can only be tenths'],
    ['degF', ({ high, seen }) => high > 62 || isFahrenheit(seen), ' is too warm for degrees Celsius'],
    ['degC', () => true, ' is what degrees Celsius can be'],
  ],
  wind: [
    ['0.1 m/s', ({ whole, high }) => whole && high > 45, ' are too much for m/s'],
    ['m/s', () => true, '; the usual unit'],
  ],
  snow_depth: [
    ['m', ({ whole, most }) => !whole && most < 4, '; fractions below 4'],
    ['mm', ({ most }) => most > 500, '; more than 5 m if they were centimetres'],
    ['cm', () => true, '; the usual unit'],
  ],
  rain: [['mm', () => true, '; the usual unit']],
};

/** A lone F at the end of a name may mean 'filled' or 'final': it is Fahrenheit only if it gets as warm. */
function isLooseF(text: string, values: Float64Array): boolean {
  if (/[°º]\s*f\b|fahrenheit|deg\.?\s*f|[[(]\s*f\s*[\])]|^f$/i.test(text)) return false;
  return values.length > 0 && !values.some((value) => value > 55);
}

/** Nearer to what the latitude usually has when read as Fahrenheit. */
function isFahrenheit({ values, wall_ms, latitude_deg }: Seen): boolean {
  if (latitude_deg === undefined) return false;
  const { mean: asRead, usual } = meanAir(values, wall_ms, latitude_deg, 0);
  return Math.abs((asRead - 32) / 1.8 - usual) < Math.abs(asRead - usual);
}

function byNumbers(unit: UnitName, reason: string): UnitChoice {
  return { unit, reason: `no unit is stated; ${reason}`, byNumbers: true, others: [] };
}

function lightByNumbers(quantity: QuantityName, seen: Seen, units: readonly UnitName[]): UnitChoice {
  const { index, days, noon_W_m2 } = clearest(seen, { unit: 'W/m2' });
  const most = seen.step_s > 0 && seen.step_s < 900 ? CLEAREST.short : CLEAREST.mean;
  // Of many days at least one is fairly clear; of a few in winter none may be.
  const ofMany = noon_W_m2 > 400 ? 0.5 : 0.3;
  const least = quantity !== 'ghi' ? 0.1 : days >= 60 ? ofMany : days >= 15 ? 0.25 : 0.12;
  const step_s = seen.step_s > 0 ? seen.step_s : 3600;
  const [best, ...others] = likeliest(units, (unit) => index * toCanonical(1, unit, step_s), least, most);
  if (best === undefined) return byNumbers('W/m2', 'the usual unit');
  const share = best.index.toFixed(2);
  return {
    ...byNumbers(
      best.unit,
      `on the clearest of ${days} days the sun at noon lets through ${share} of the light outside the air`,
    ),
    others: others.map(({ unit }) => unit),
  };
}

/** Units under which the clearest days are as clear as days are, the likeliest first. */
function likeliest(
  units: readonly UnitName[],
  indexIn: (unit: UnitName) => number,
  least: number,
  most: number,
): { unit: UnitName; index: number }[] {
  const off = (index: number): number => Math.abs(log(index / 0.75));
  return units
    .map((unit) => ({ unit, index: indexIn(unit) }))
    .filter(({ index }) => index >= least && index <= most)
    .sort((a, b) => off(a.index) - off(b.index));
}

/** Highest value of a day over the light outside the air at noon, on the clearest days; how many, and their middle noon. */
export function clearest(
  seen: Seen,
  { unit, per_s }: StatedUnit,
): { index: number; days: number; noon_W_m2: number } {
  const light = dailyLight(seen.values, seen.wall_ms, seen.latitude_deg);
  const step_s = per_s ?? (seen.step_s > 0 ? seen.step_s : 3600);
  const one = toCanonical(1, unit, step_s);
  const shares = light.most.map((value, d) => (value * one) / light.noon_W_m2[d]!);
  // Very low noons make wild shares.
  const good = shares.filter((_, d) => light.noon_W_m2[d]! > 100);
  const known = seen.latitude_deg !== undefined;
  const used = known && good.length > 0 ? good : shares;
  // Without a latitude only the brightest days say something.
  const index = quantile(used, known && used.length > 20 ? 0.97 : 1) ?? 0;
  return { index, days: used.length, noon_W_m2: median(light.noon_W_m2) ?? 0 };
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}

/** The highest value of each day beside what is outside the air at noon. */
export interface DailyLight {
  /** Highest value of the day, in whatever unit. */
  most: number[];
  /** Extraterrestrial irradiance on the horizontal at solar noon, W/m2. */
  noon_W_m2: number[];
}

/**
 * For each whole day of a sample the highest value and the extraterrestrial irradiance at noon (W/m2). Without a
 * latitude, that of the latitude where the sun stands highest.
 *
 * in: values, wall_ms of each; latitude_deg, undefined where it is not known
 * out: days with at least 6 values, their noon above 20 W/m2; of a row a day the means of the day in place of noons
 */
export function dailyLight(
  values: Float64Array,
  wall_ms: Float64Array,
  latitude_deg: number | undefined,
): DailyLight {
  const known = range(values.length).filter((i) => !Number.isNaN(values[i]! + wall_ms[i]!));
  const tops = rollup(
    known,
    (list) => ({ most: max(list, (i) => values[i]!)!, count: list.length }),
    (i) => Math.floor(wall_ms[i]! / DAY_MS),
  );
  const byDay = [...tops.values()].every(({ count }) => count === 1);
  const light: DailyLight = { most: [], noon_W_m2: [] };
  for (const [day, { most, count }] of tops) {
    if (count < 6 && !byDay) continue;
    const ms = day * DAY_MS;
    const { declination_deg } = sunOfDay(ms + DAY_MS / 2);
    const normal_W_m2 = extraterrestrialNormal(dayOfYear(ms));
    const noon =
      normal_W_m2 *
      (byDay ? meanSine(latitude_deg ?? 0, declination_deg) : noonSine(latitude_deg, declination_deg));
    if (noon < 20) continue;
    light.most.push(most);
    light.noon_W_m2.push(noon);
  }
  return light;
}

function noonSine(latitude_deg: number | undefined, declination_deg: number): number {
  const zenith_deg = latitude_deg === undefined ? 20 : Math.abs(latitude_deg - declination_deg);
  return cos((Math.min(90, zenith_deg) * Math.PI) / 180);
}

/** Mean over 24 hours of the sine of the sun's height, where it is up. */
function meanSine(latitude_deg: number, declination_deg: number): number {
  const angles_deg = [latitude_deg, declination_deg, sunsetAngle(declination_deg, latitude_deg)];
  const [phi, delta, sunset] = angles_deg.map((angle) => (angle * Math.PI) / 180) as [number, number, number];
  return (cos(phi) * cos(delta) * sin(sunset) + sunset * sin(phi) * sin(delta)) / Math.PI;
}

/** Mean of a temperature column, and of what the latitude usually has at the same times, degC. */
function meanAir(
  values: Float64Array,
  ms: Float64Array,
  latitude_deg: number,
  longitude_deg: number,
): { mean: number; usual: number } {
  const few = range(0, values.length, Math.max(1, Math.floor(values.length / 2000)));
  const known = few.filter((i) => !Number.isNaN(values[i]! + ms[i]!));
  const usual = mean(known, (i) => usualAir(ms[i]!, latitude_deg, longitude_deg));
  return { mean: mean(known, (i) => values[i]!) ?? Number.NaN, usual: usual ?? Number.NaN };
}

/**
 * The clearest days of a month and more let through 0.5 to 0.9 of the light outside the air at noon (less in a deep
 * shade); short steps more, where clouds stand beside the sun. Common practice, no source.
 */
const CLEAREST_DAYS = { least: 0.42, days: 30, most: 1.25, mostShort: 1.7 } as const;
/** Where the right unit must bring them. */
const USUAL_DAYS = { least: 0.5, most: 1.15 } as const;
/** A mean so far from what the latitude usually has is another unit where that brings it this near, kelvin. */
const AIR_K = { off: 18, near: 13 } as const;

type Place = Pick<Site, 'latitude_deg' | 'longitude_deg'>;

/** A unit as it is typed. */
export function unitTyped(quantity: QuantityName, unit: string): string {
  return `--unit ${typed(`${quantity}=${unit}`)}`;
}

/**
 * Refuses a record whose best hours, or whose mean temperature, are far from what sun and latitude can give while
 * another unit would explain them. What the user states stands.
 *
 * in: file, name for messages; series; columns, as chosen; site
 * throws: WEATHER_AMBIGUOUS with the unit to type
 * valid: at least 30 days for light that is too dim
 */
export function refuseUnitsOfRecord(
  file: string,
  series: NativeSeries,
  columns: readonly ColumnChoice[],
  site: Place,
): void {
  const problems: Problem[] = [];
  for (const choice of columns) {
    const found = choice.unitReason === 'stated by the user' ? undefined : unitInDoubt(series, choice, site);
    if (found === undefined) continue;
    problems.push({
      code: 'WEATHER_AMBIGUOUS',
      file,
      field: choice.heading || `column ${choice.column + 1}`,
      got: `${found.got} if read in ${choice.unit} (${choice.unitReason})`,
      expected: `${found.usual}, as in ${found.unit}`,
      ...fixOf(
        [found.unit, choice.unit].map((unit) => unitTyped(choice.quantity, unit)),
        ` to insist (in a scenario, weather.columns.${choice.quantity}.unit).`,
      ),
    });
  }
  if (problems.length > 0) throw new InputProblem(problems);
}

interface Doubt {
  got: string;
  usual: string;
  unit: UnitName;
}

/** Another unit that explains what a column's best hours, or its mean temperature, are far from; undefined where none does. */
export function unitInDoubt(series: NativeSeries, choice: ColumnChoice, site: Place): Doubt | undefined {
  const judges: Partial<Record<QuantityName, typeof lightInDoubt>> = {
    ghi: lightInDoubt,
    air_temperature: airInDoubt,
  };
  const values = series.columns[choice.quantity];
  return values && judges[choice.quantity]?.(values, series, choice, site);
}

function lightInDoubt(
  values: Float64Array,
  { stamp_ms, step_s, fileStep_s }: NativeSeries,
  choice: ColumnChoice,
  { latitude_deg }: Place,
): Doubt | undefined {
  const { index, days } = clearest({ values, wall_ms: stamp_ms, step_s, latitude_deg }, { unit: 'W/m2' });
  const most = step_s < 900 ? CLEAREST_DAYS.mostShort : CLEAREST_DAYS.most;
  const dim = index < CLEAREST_DAYS.least && days >= CLEAREST_DAYS.days;
  if (!dim && index <= most) return undefined;
  const step = choice.per_s ?? (fileStep_s > 0 ? fileStep_s : 3600);
  const one = (unit: UnitName): number => toCanonical(1, unit, step) / toCanonical(1, choice.unit, step);
  const radiation = IRRADIANCE_UNITS.filter((unit) => !UNGUESSED.has(unit));
  const [best] = likeliest(radiation, (unit) => index * one(unit), USUAL_DAYS.least, USUAL_DAYS.most);
  if (best === undefined) return undefined;
  return {
    got: `${index.toFixed(index < 1 ? 2 : 1)} of the light outside the air on the clearest of ${days} days`,
    usual: `0.5 to 0.9 of it`,
    unit: best.unit,
  };
}

function airInDoubt(
  values: Float64Array,
  { stamp_ms }: NativeSeries,
  choice: ColumnChoice,
  { latitude_deg, longitude_deg }: Place,
): Doubt | undefined {
  const { mean: asRead, usual } = meanAir(values, stamp_ms, latitude_deg, longitude_deg);
  if (!(Math.abs(asRead - usual) > AIR_K.off)) return undefined;
  const inFile = fromCanonical(asRead, choice.unit, 3600);
  const offIn = (unit: UnitName): number => Math.abs(toCanonical(inFile, unit, 3600) - usual);
  const best = least(
    TEMPERATURE_UNITS.filter((unit) => unit !== choice.unit),
    offIn,
  )!;
  if (offIn(best) > AIR_K.near) return undefined;
  return {
    got: `a mean of ${Math.round(asRead)} degC`,
    usual: `about ${Math.round(usual)} degC at this latitude and season`,
    unit: best,
  };
}
