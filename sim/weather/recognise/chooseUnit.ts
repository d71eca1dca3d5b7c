import { mean, range } from 'd3-array';
import { quantileSorted } from 'simple-statistics';
import { log } from '../../common/elementary/log.ts';
import { toCanonical, type UnitName } from '../../tables/units.ts';
import { usualAir } from '../gaps/fillAir.ts';
import { clearest, type Seen } from './clearDays.ts';
import { isLight, type QuantityName } from './DetectedFormat.ts';
import { type StatedUnit, unitFromWords } from './unitFromWords.ts';
import { shortened, typed } from './words.ts';

/** The unit of a column and what it rests on. */
export interface UnitChoice extends StatedUnit {
  reason: string;
  byNumbers: boolean;
  /** Units that would do as well; more than none where the numbers do not settle it. */
  others: UnitName[];
}

const LIGHT_UNITS: readonly UnitName[] = ['W/m2', 'J/cm2', 'kJ/m2', 'kW/m2', 'MJ/m2', 'langley'];
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
export function likeliest(
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

function round(value: number): number {
  return Number(value.toPrecision(3));
}

/** Mean of a temperature column, and of what the latitude usually has at the same times, degC. */
export function meanAir(
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

/** A unit as it is typed. */
export function unitTyped(quantity: QuantityName, unit: string): string {
  return `--unit ${typed(`${quantity}=${unit}`)}`;
}
