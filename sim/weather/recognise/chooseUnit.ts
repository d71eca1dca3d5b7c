import { quantileSorted } from 'simple-statistics';
import type { UnitName } from '../../tables/units.ts';
import { toCanonical } from '../../tables/units.ts';
import { isLight, type QuantityName } from './DetectedFormat.ts';
import { dailyLight } from './dailyLight.ts';
import { meanAir } from './meanAir.ts';
import { shortened } from './shortened.ts';
import { type StatedUnit, unitFromWords } from './unitFromWords.ts';

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
    return { ...stated, reason: `${where} says "${shortened(text, 60)}"`, byNumbers: false, others: [] };
  }
  if (isLight(quantity)) {
    const ofLight = texts.some(({ text }) => /illumin|lux|\blicht|\blight|beleucht|eclairement/i.test(text));
    return lightByNumbers(quantity, seen, ofLight ? [...LIGHT_UNITS, ...LIGHT_METER_UNITS] : LIGHT_UNITS);
  }
  const sorted = Array.from(seen.values.filter((value) => !Number.isNaN(value)).sort());
  if (sorted.length === 0) return byNumbers(DEFAULTS[quantity]!, 'no values; the usual unit');
  const low = quantileSorted(sorted, 0.02);
  const high = quantileSorted(sorted, 0.98);
  const whole = sorted.every((value) => Number.isInteger(value));
  const range = `${round(low)} to ${round(high)}`;
  if (quantity === 'air_temperature') {
    if (low > 195 && high < 335) return byNumbers('K', `${range} can only be kelvin`);
    if (whole && (high > 130 || low < -90))
      return byNumbers('0.1 degC', `whole numbers from ${range} can only be tenths`);
    if (high > 62 || isFahrenheit(seen)) return byNumbers('degF', `${range} is too warm for degrees Celsius`);
    return byNumbers('degC', `${range} is what degrees Celsius can be`);
  }
  if (quantity === 'wind') {
    return whole && high > 45
      ? byNumbers('0.1 m/s', `whole numbers to ${round(high)} are too much for m/s`)
      : byNumbers('m/s', `${range}; the usual unit`);
  }
  if (quantity === 'snow_depth') {
    if (!whole && sorted.at(-1)! < 4) return byNumbers('m', `fractions below 4`);
    return sorted.at(-1)! > 500
      ? byNumbers('mm', `up to ${sorted.at(-1)}`)
      : byNumbers('cm', `up to ${sorted.at(-1)}`);
  }
  return byNumbers(DEFAULTS[quantity]!, `${range}; the usual unit`);
}

const DEFAULTS: Partial<Record<QuantityName, UnitName>> = {
  air_temperature: 'degC',
  snow_depth: 'cm',
  rain: 'mm',
  wind: 'm/s',
};

/** A lone F at the end of a name may mean 'filled' or 'final': it is Fahrenheit only if it gets as warm. */
function isLooseF(text: string, values: Float64Array): boolean {
  if (/[°º]\s*f\b|fahrenheit|deg\.?\s*f|[[(]\s*f\s*[\])]|^f$/i.test(text)) return false;
  return values.length > 0 && !values.some((value) => value > 55);
}

/** Nearer to what the latitude usually has when read as Fahrenheit. */
function isFahrenheit({ values, wall_ms, latitude_deg }: Seen): boolean {
  if (latitude_deg === undefined) return false;
  const { mean, usual } = meanAir(values, wall_ms, latitude_deg, 0);
  return Math.abs((mean - 32) / 1.8 - usual) < Math.abs(mean - usual);
}

function byNumbers(unit: UnitName, reason: string): UnitChoice {
  return { unit, reason: `no unit is stated; ${reason}`, byNumbers: true, others: [] };
}

function lightByNumbers(quantity: QuantityName, seen: Seen, units: readonly UnitName[]): UnitChoice {
  const { days } = clearest(seen, { unit: 'W/m2' });
  const fits = fitting(seen, days, units, quantity !== 'ghi');
  const best = fits[0];
  if (best === undefined) return { ...byNumbers('W/m2', 'the usual unit'), others: [] };
  return {
    ...byNumbers(
      best[0],
      `on the clearest of ${days} days the sun at noon lets through ${best[1].toFixed(2)} of the light outside the air`,
    ),
    others: fits.slice(1).map(([unit]) => unit),
  };
}

/** Units under which the clearest days are as clear as days are, the likeliest first. */
function fitting(seen: Seen, days: number, units: readonly UnitName[], loose = false): [UnitName, number][] {
  const most = seen.step_s > 0 && seen.step_s < 900 ? CLEAREST.short : CLEAREST.mean;
  // Of many days at least one is fairly clear; of a few in winter none may be.
  const noons = dailyLight(seen.values, seen.wall_ms, seen.latitude_deg).noon_W_m2.toSorted((a, b) => a - b);
  const high = (noons[noons.length >> 1] ?? 0) > 400;
  const least = loose ? 0.1 : days >= 60 ? (high ? 0.5 : 0.3) : days >= 15 ? 0.25 : 0.12;
  return units
    .map((unit): [UnitName, number] => [unit, clearest(seen, { unit }).index])
    .filter(([, index]) => index >= least && index <= most)
    .sort((a, b) => Math.abs(Math.log(a[1] / 0.75)) - Math.abs(Math.log(b[1] / 0.75)));
}

/** Highest value of a day over the light outside the air at noon, on the clearest days. */
export function clearest(seen: Seen, { unit, per_s }: StatedUnit): { index: number; days: number } {
  const light = dailyLight(seen.values, seen.wall_ms, seen.latitude_deg);
  const step_s = per_s ?? (seen.step_s > 0 ? seen.step_s : 3600);
  const one = toCanonical(1, unit, step_s);
  const shares = light.most.map((value, d) => (value * one) / light.noon_W_m2[d]!);
  if (seen.latitude_deg === undefined) {
    // Only the brightest days say something then.
    shares.sort((a, b) => a - b);
    return { index: shares.length === 0 ? 0 : shares.at(-1)!, days: shares.length };
  }
  // Very low noons make wild shares.
  const good = shares.filter((_, d) => light.noon_W_m2[d]! > 100).sort((a, b) => a - b);
  const used = good.length > 0 ? good : shares.sort((a, b) => a - b);
  return {
    index: used.length === 0 ? 0 : quantileSorted(used, used.length > 20 ? 0.97 : 1),
    days: used.length,
  };
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}
