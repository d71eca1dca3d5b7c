import { least } from 'd3-array';
import { fixOf, InputProblem, type Problem } from '../../common/InputProblem.ts';
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
import { clearest } from './clearDays.ts';
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
