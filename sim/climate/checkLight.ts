import { log } from '../common/elementary/log.ts';
import type { Report, ValueProblem } from '../common/InputProblem.ts';
import { MONTH_NAMES } from '../common/time.ts';
import type { MonthsOfSun } from './MonthsOfSun.ts';
import { clearnessOf } from './meansClimate.ts';
import type { ClimateSection } from './schema.ts';

/** Mean clearness of a month that no sky gives, nor ever gave. */
export const CLEARNESS = { least: 0.02, most: 0.8 };
/** Of the clearest sky of a month its mean reaches at most so much. */
const MOST_OF_CLEAREST = 0.97;
/** Light of a month without sun that rounding leaves, kWh/m2 a day. */
const ROUNDING_KWH_M2 = 0.01;

/** Keys that hold a mean of each month's light. */
type MeansKey = 'irradiation_kWh_m2_day' | 'clearness';

/**
 * Means of the light that no sky gives, with the unit that would explain them.
 *
 * in: section; key, the one that holds its means; months; report, with paths below the section
 * valid: bounds common practice, no source
 */
export function checkLight(
  section: ClimateSection,
  key: MeansKey,
  months: MonthsOfSun,
  report: Report,
): void {
  const values = section[key]!;
  const clearness = clearnessOf(section, months);
  const problems = values.flatMap((value, month) => {
    const problem = problemOf(key, value, clearness[month], month, months);
    return problem === undefined ? [] : [{ ...problem, path: [key, month] }];
  });
  const meant = key === 'irradiation_kWh_m2_day' ? likelyUnit(values, months) : undefined;
  // What one unit explains is said once.
  if (meant === undefined) problems.forEach(report);
  else if (problems.length > 0) report({ ...problems[0]!, fix: meant });
}

/** What is wrong with the mean of one month. */
function problemOf(
  key: MeansKey,
  value: number | null,
  mean: number | undefined,
  month: number,
  months: MonthsOfSun,
): Omit<ValueProblem, 'path'> | undefined {
  const name = MONTH_NAMES[month]!;
  if (months.isDark[month]) {
    if (value === null || key === 'clearness' || value <= ROUNDING_KWH_M2) return undefined;
    return {
      code: 'SCENARIO_CONFLICT',
      got: `${value} in ${name}, when the sun hardly rises there`,
      expected: '0, or null: nothing is needed',
      fix: 'write null, or check site.latitude_deg and the order of the months.',
    };
  }
  if (value === null || mean === undefined) {
    return {
      code: 'SCENARIO_MISSING_KEY',
      got: `nothing for ${name}`,
      expected: 'its mean: the sun rises there in that month',
      fix: 'write the mean; null is for months without sun.',
    };
  }
  const most = Math.min(CLEARNESS.most, MOST_OF_CLEAREST * months.clearest[month]!);
  if (mean >= CLEARNESS.least && mean <= most) return undefined;
  const [unit, per] = key === 'clearness' ? ['', 1] : [' kWh/m2 a day', months.outside_kWh_m2_day[month]!];
  const why = mean > most ? 'more than the clearest sky lets through there' : 'less than any cloud leaves';
  return {
    code: 'SCENARIO_OUT_OF_RANGE',
    got: `${value}${unit} in ${name}, ${why} (${plain(mean * 100)} percent of the light outside the air)`,
    expected: `${plain(CLEARNESS.least * per)} to ${plain(most * per)}${unit}`,
    fix: 'check the number, site.latitude_deg and the order of the months: January comes first.',
  };
}

const DAYS_OF_MONTH = 30.4;
/** Other units that light by the month comes in, and what one of each is in kWh/m2 a day; common practice, no source. */
const LIGHT_UNITS: readonly (readonly [string, number])[] = [
  ['MJ/m2 a day', 1 / 3.6],
  ['Wh/m2 a day', 1e-3],
  ['J/cm2 a day', 1 / 360],
  ['kWh/m2 a month', 1 / DAYS_OF_MONTH],
  ['MJ/m2 a month', 1 / 3.6 / DAYS_OF_MONTH],
  ['W/m2, mean of day and night', 0.024],
];
/** Clearness that the means of all months lie within at nearly all places, and about where the middle of them lies. */
const USUAL = { least: 0.1, most: 0.78, middle: 0.42 };

/** The unit in which all months are such as a sky gives, with the values converted; undefined where there is none. */
function likelyUnit(values: readonly (number | null)[], months: MonthsOfSun): string | undefined {
  const lit = values.flatMap((value, month) => (months.isDark[month] || value === null ? [] : [month]));
  const fits = LIGHT_UNITS.map(([unit, factor]) => {
    const clearness = lit.map((month) => (values[month]! * factor) / months.outside_kWh_m2_day[month]!);
    const middle = clearness.toSorted((a, b) => a - b)[Math.floor(clearness.length / 2)] ?? 0;
    const isUsual = clearness.every((k) => k >= USUAL.least && k <= USUAL.most);
    return {
      unit,
      factor,
      off: isUsual ? Math.abs(log(middle / USUAL.middle)) : Number.POSITIVE_INFINITY,
    };
  });
  const best = fits.reduce((one, other) => (other.off < one.off ? other : one));
  if (!Number.isFinite(best.off)) return undefined;
  const converted = values.map((value) => (value === null ? 'null' : plain(value * best.factor)));
  return `did you mean ${best.unit}? Then write [${converted.join(', ')}].`;
}

/** A number to three digits. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(3)));
}
