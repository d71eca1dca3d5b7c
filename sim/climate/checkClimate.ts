import type { Report } from '../common/InputProblem.ts';
import { MONTH_NAMES } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import { CLEARNESS, checkLight, plain } from './checkLight.ts';
import { type MonthsOfSun, monthsOfSun } from './MonthsOfSun.ts';
import { winterFrame } from './madeWinters.ts';
import type { ClimateSection } from './schema.ts';

/** Warmest mean of a month anywhere, at the ground in the shade. */
const WARMEST_DEG_C = 42;
/** Latitude from which on the sunny half of the year is the warmer one. */
const SEASONS_FROM_DEG = 30;
const LIGHT_KEYS = ['irradiation_kWh_m2_day', 'clearness', 'clearness_shares'] as const;

/**
 * What no sky gives, and what is missing or said twice, in a climate whose single values are sound.
 *
 * in: section; site; report, with paths below the section
 * valid: bounds common practice, no source
 */
export function checkClimate(
  section: ClimateSection,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  report: Report,
): void {
  const months = monthsOfSun(winterFrame(site));
  const stated = LIGHT_KEYS.filter((key) => section[key] !== undefined);
  if (stated.length !== 1) {
    report({
      code: stated.length === 0 ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_CONFLICT',
      path: [stated[1] ?? 'irradiation_kWh_m2_day'],
      got: stated.length === 0 ? 'nothing of the light' : stated.join(' and '),
      expected: `one of ${LIGHT_KEYS.join(', ')}`,
      fix:
        stated.length === 0
          ? 'add irradiation_kWh_m2_day: [twelve means, January to December].'
          : 'keep the one that is known best.',
    });
  } else if (stated[0] === 'clearness_shares') checkShares(section, months, report);
  else checkLight(section, stated[0]!, months, report);
  if (section.air_degC === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['air_degC'],
      got: 'nothing of the air',
      expected: 'mean air temperature of each month, January to December',
      fix: 'add air_degC: [twelve means]; those of the nearest town will do.',
    });
  } else checkAir(section.air_degC, site.latitude_deg, months, report);
  checkSnow(section.snow_days ?? [], months, report);
  const { lasting, winter } = section.persistence;
  if (lasting + winter <= 1) return;
  report({
    code: 'SCENARIO_CONFLICT',
    path: ['persistence', 'lasting'],
    got: `lasting: ${lasting} and winter: ${winter}`,
    expected: 'two shares of one variance, 1 together at most',
    fix: 'lower one of them.',
  });
}

/** Rows of shares: as many as there are shares, rising, none where there is no sun. */
function checkShares(section: ClimateSection, months: MonthsOfSun, report: Report): void {
  const { days, months: rows } = section.clearness_shares!;
  const at = (...below: (string | number)[]) => ['clearness_shares', ...below];
  if (section.distribution !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['distribution'],
      got: 'distribution and clearness_shares',
      expected: 'one of them: the shares are the distribution',
      fix: 'take distribution away.',
    });
  }
  if (!isRising(days, true) || days[0] !== 0 || days.at(-1) !== 1) {
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: at('days'),
      got: days.join(', '),
      expected: 'shares that rise from 0 to 1',
      fix: 'begin with 0 and end with 1.',
    });
  }
  rows.forEach((row, month) => {
    if (row === null && months.isDark[month]) return;
    const most = row?.at(-1) ?? 0;
    if (row !== null && row.length === days.length && isRising(row, false) && most >= CLEARNESS.least) return;
    const count = row !== null && row.length !== days.length;
    report({
      code: row === null ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_OUT_OF_RANGE',
      path: at('months', month),
      got:
        row === null
          ? `nothing for ${MONTH_NAMES[month]}`
          : `${count ? `${row.length} numbers` : row.join(', ')} for ${MONTH_NAMES[month]}`,
      expected: `${days.length} values of clearness that never fall, the last above ${CLEARNESS.least}`,
      fix: 'one for each of the shares in days, the dullest first.',
    });
  });
}

function isRising(values: readonly number[], strictly: boolean): boolean {
  return values.every((value, i) => i === 0 || (strictly ? value > values[i - 1]! : value >= values[i - 1]!));
}

function checkSnow(snow_days: readonly number[], months: MonthsOfSun, report: Report): void {
  snow_days.forEach((days, month) => {
    if (days <= (month === 1 ? 29 : months.days[month]!)) return;
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: ['snow_days', month],
      got: `${days} days in ${MONTH_NAMES[month]}`,
      expected: `at most ${months.days[month]} days`,
      fix: 'check the order of the months: January comes first.',
    });
  });
}

/** Means of the air that no place has: in Fahrenheit or kelvin. */
function checkAir(
  air_degC: readonly number[],
  latitude_deg: number,
  months: MonthsOfSun,
  report: Report,
): void {
  if (Math.abs(latitude_deg) >= SEASONS_FROM_DEG && isUpsideDown(air_degC, months)) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['air_degC'],
      got: 'air that is coldest while the sun is high',
      expected: `twelve means of a place at latitude ${latitude_deg}, January first`,
      fix: 'check the order of the months and the sign of site.latitude_deg: north is positive.',
    });
  }
  const month = air_degC.indexOf(Math.max(...air_degC));
  const warmest = air_degC[month]!;
  if (warmest <= WARMEST_DEG_C) return;
  const inKelvin = Math.min(...air_degC) > 180;
  const converted = air_degC.map((value) => plain(inKelvin ? value - 273.15 : ((value - 32) * 5) / 9));
  report({
    code: 'SCENARIO_OUT_OF_RANGE',
    path: ['air_degC', month],
    got: `${warmest} degC in ${MONTH_NAMES[month]}`,
    expected: `at most ${WARMEST_DEG_C} degC as the mean of a month`,
    fix: `did you mean ${inKelvin ? 'kelvin' : 'Fahrenheit'}? Then write [${converted.join(', ')}].`,
  });
}

/** Whether the six months of high sun are colder than the others. */
function isUpsideDown(air_degC: readonly number[], { outside_kWh_m2_day: sun }: MonthsOfSun): boolean {
  const bySun = air_degC.map((_, month) => month).sort((a, b) => sun[b]! - sun[a]!);
  const sum = (of: readonly number[]) => of.reduce((total, month) => total + air_degC[month]!, 0);
  return sum(bySun.slice(0, 6)) < sum(bySun.slice(6));
}
