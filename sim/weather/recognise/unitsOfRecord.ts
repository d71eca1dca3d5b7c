import { fixOf, InputProblem, type Problem } from '../../common/InputProblem.ts';
import { IRRADIANCE_UNITS, TEMPERATURE_UNITS, toCanonical, type UnitName } from '../../tables/units.ts';
import type { NativeSeries } from '../read/NativeSeries.ts';
import { clearest } from './chooseUnit.ts';
import { unitTyped } from './columnProblems.ts';
import type { ColumnChoice } from './DetectedFormat.ts';
import { meanAir } from './meanAir.ts';

/**
 * The clearest days of a month and more let through 0.5 to 0.9 of the light outside the air at noon (less in a deep
 * shade); short steps more, where clouds stand beside the sun. Common practice, no source.
 */
const CLEAREST_DAYS = { least: 0.42, days: 30, most: 1.25, mostShort: 1.7 } as const;
/** Where the right unit must bring them. */
const USUAL_DAYS = { least: 0.5, most: 1.15 } as const;
/** A mean so far from what the latitude usually has is another unit where that brings it this near, kelvin. */
const AIR_K = { off: 18, near: 13 } as const;

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
  site: { latitude_deg: number; longitude_deg: number },
): void {
  const problems: Problem[] = [];
  for (const choice of columns) {
    const values = series.columns[choice.quantity];
    if (values === undefined || choice.unitReason === 'stated by the user') continue;
    const found =
      choice.quantity === 'ghi'
        ? lightInDoubt(values, series, choice, site.latitude_deg)
        : choice.quantity === 'air_temperature'
          ? airInDoubt(values, series, choice, site)
          : undefined;
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

function lightInDoubt(
  values: Float64Array,
  { stamp_ms, step_s, fileStep_s }: NativeSeries,
  choice: ColumnChoice,
  latitude_deg: number,
): Doubt | undefined {
  const { index, days } = clearest({ values, wall_ms: stamp_ms, step_s, latitude_deg }, { unit: 'W/m2' });
  const most = step_s < 900 ? CLEAREST_DAYS.mostShort : CLEAREST_DAYS.most;
  const dim = index < CLEAREST_DAYS.least && days >= CLEAREST_DAYS.days;
  if (!dim && index <= most) return undefined;
  const step = choice.per_s ?? (fileStep_s > 0 ? fileStep_s : 3600);
  const one = (unit: UnitName): number => toCanonical(1, unit, step) / toCanonical(1, choice.unit, step);
  const best = IRRADIANCE_UNITS.filter((unit) => unit !== 'lx' && unit !== 'klx')
    .map((unit) => ({ unit, index: index * one(unit) }))
    .filter((other) => other.index >= USUAL_DAYS.least && other.index <= USUAL_DAYS.most)
    .sort((a, b) => Math.abs(Math.log(a.index / 0.75)) - Math.abs(Math.log(b.index / 0.75)))[0];
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
  site: { latitude_deg: number; longitude_deg: number },
): Doubt | undefined {
  const { mean, usual } = meanAir(values, stamp_ms, site.latitude_deg, site.longitude_deg);
  if (!(Math.abs(mean - usual) > AIR_K.off)) return undefined;
  const inFile = (mean - toCanonical(0, choice.unit, 3600)) / slope(choice.unit);
  const best = TEMPERATURE_UNITS.filter((unit) => unit !== choice.unit)
    .map((unit) => ({ unit, off: Math.abs(toCanonical(inFile, unit, 3600) - usual) }))
    .sort((a, b) => a.off - b.off)[0]!;
  if (best.off > AIR_K.near) return undefined;
  return {
    got: `a mean of ${Math.round(mean)} degC`,
    usual: `about ${Math.round(usual)} degC at this latitude and season`,
    unit: best.unit,
  };
}

function slope(unit: UnitName): number {
  return toCanonical(1, unit, 3600) - toCanonical(0, unit, 3600);
}
