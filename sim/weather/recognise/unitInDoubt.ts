import { least, range, rollup } from 'd3-array';
import { fixOf, InputProblem, type Problem } from '../../common/InputProblem.ts';
import { DAY_MS } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import {
  fromCanonical,
  IRRADIANCE_UNITS,
  TEMPERATURE_UNITS,
  toCanonical,
  type UnitName,
} from '../../tables/units.ts';
import type { NativeSeries } from '../read/NativeSeries.ts';
import { likeliest, meanAir, unitTyped } from './chooseUnit.ts';
import { clearest, noonOutside, summedOver_s } from './clearDays.ts';
import type { ColumnChoice, QuantityName } from './DetectedFormat.ts';

/** Not guessed where another unit is stated: light that is no radiation, and what nobody uses without saying so. */
const UNGUESSED: ReadonlySet<UnitName> = new Set(['lx', 'klx', '0.1 W/m2', 'mW/m2', 'uW/cm2']);
/**
 * The clearest days of a month and more let through 0.5 to 0.9 of the light outside the air at noon (less in a deep
 * shade); short steps more, where clouds stand beside the sun. Common practice, no source.
 */
const CLEAREST_DAYS = { least: 0.42, days: 30, most: 1.25, mostShort: 1.7 } as const;
/** Where the right unit must bring them. */
const USUAL_DAYS = { least: 0.5, most: 1.15 } as const;
/** At most this share of the rows with light is beyond any noon while the others fit: then these rows are wrong, not the unit. */
const FAR_OUT_SHARE = 0.05;
/** Noons below this make wild shares, W/m2. */
const LOWEST_NOON_W_M2 = 100;
/** A mean so far from what the latitude usually has is another unit where that brings it this near, kelvin. */
const AIR_K = { off: 18, near: 13 } as const;

type Place = Pick<Site, 'latitude_deg' | 'longitude_deg'>;

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
    if (found.farOut.length > 0) {
      problems.push(tooBright(file, series, choice, found.farOut));
      continue;
    }
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
  /** Rows that alone bring it about while the others fit the unit at hand; none otherwise. */
  farOut: readonly number[];
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
  series: NativeSeries,
  choice: ColumnChoice,
  site: Place,
): Doubt | undefined {
  const { stamp_ms, step_s, fileStep_s } = series;
  const { latitude_deg } = site;
  const { index, days } = clearest({ values, wall_ms: stamp_ms, step_s, latitude_deg }, { unit: 'W/m2' });
  const most = mostOf(step_s);
  const dim = index < CLEAREST_DAYS.least && days >= CLEAREST_DAYS.days;
  if (!dim && index <= most) return undefined;
  const step = summedOver_s(choice.per_s, fileStep_s);
  const one = (unit: UnitName): number => toCanonical(1, unit, step) / toCanonical(1, choice.unit, step);
  const radiation = IRRADIANCE_UNITS.filter((unit) => !UNGUESSED.has(unit));
  const [best] = likeliest(radiation, (unit) => index * one(unit), USUAL_DAYS.least, USUAL_DAYS.most);
  if (best === undefined) return undefined;
  return {
    got: `${index.toFixed(index < 1 ? 2 : 1)} of the light outside the air on the clearest of ${days} days`,
    usual: `0.5 to 0.9 of it`,
    unit: best.unit,
    farOut: dim ? [] : rowsFarOut(values, series, site),
  };
}

function mostOf(step_s: number): number {
  return step_s < 900 ? CLEAREST_DAYS.mostShort : CLEAREST_DAYS.most;
}

/** Rows of global light brighter than any noon of their day, where they are few and all others fit the unit. */
function rowsFarOut(
  values: Float64Array,
  { stamp_ms, step_s, fileStep_s }: NativeSeries,
  { latitude_deg }: Place,
): number[] {
  if (fileStep_s * 1000 === DAY_MS) return [];
  const most = mostOf(step_s);
  const indexOf = (list: Float64Array): number =>
    clearest({ values: list, wall_ms: stamp_ms, step_s, latitude_deg }, { unit: 'W/m2' }).index;
  const day = (i: number): number => Math.floor(stamp_ms[i]! / DAY_MS);
  const noons = rollup(
    range(values.length),
    ([first]) => Math.max(LOWEST_NOON_W_M2, noonOutside(day(first!) * DAY_MS, latitude_deg)),
    day,
  );
  const rows = range(values.length).filter((i) => values[i]! > most * noons.get(day(i))!);
  const others = values.slice();
  for (const i of rows) others[i] = Number.NaN;
  const rest = indexOf(others);
  const fits = rest >= USUAL_DAYS.least && rest <= most;
  const lit = values.filter((value) => value > 0).length;
  return fits && rows.length <= FAR_OUT_SHARE * lit ? rows : [];
}

function tooBright(
  file: string,
  series: NativeSeries,
  choice: ColumnChoice,
  rows: readonly number[],
): Problem {
  const [row] = rows as [number];
  const { heading, column, unit } = choice;
  const step_s = summedOver_s(choice.per_s, series.fileStep_s);
  const value = Number(fromCanonical(series.columns.ghi![row]!, unit, step_s).toPrecision(6));
  return {
    code: 'WEATHER_VALUE_OUT_OF_RANGE',
    file,
    line: series.line[row]!,
    field: heading || `column ${column + 1}`,
    got: `${value} ${unit}, brighter than any noon of its day, and ${rows.length - 1} rows more like it of ${series.stamp_ms.length}`,
    expected: `light that the sun can give; the other rows fit ${unit}`,
    fix: 'empty the cells of rows that are wrong; a column of marks beside them may tell which.',
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
    farOut: [],
  };
}
