import type { ProblemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import type { SunColumns } from '../sun/sunColumns.ts';
import type { HourlyMapping, HourlySeries } from '../tables/hourlyTable.ts';
import {
  fromCanonical,
  IRRADIANCE_UNITS,
  TEMPERATURE_UNITS,
  toCanonical,
  type UnitName,
} from '../tables/units.ts';
import { clockHint } from './clockHint.ts';
import { highestPossible, LOWEST_IRRADIANCE_W_M2, RANGES } from './limits.ts';

const IRRADIANCES = ['ghi', 'dni', 'dhi'] as const;

/**
 * Puts values that cannot be on the list of problems: irradiance beyond a sensor's offset or the physically possible,
 * temperature, snow, rain and wind beyond the records of the world.
 *
 * in: file, name for messages; series, columns named as in the scenario; mapping they were read by; sun over the same hours
 * out: nothing; problems grows
 * source: LongDutton2002; ISO9060; WMOExtremes
 */
export function checkLimits(
  file: string,
  series: HourlySeries,
  mapping: HourlyMapping,
  sun: SunColumns,
  problems: ProblemList,
): void {
  for (const [name, values] of Object.entries(series.columns)) {
    const quantity = IRRADIANCES.find((irradiance) => irradiance === name);
    const range = RANGES[name];
    const source = mapping.columns[name];
    if (source === undefined || (quantity === undefined && range === undefined)) continue;
    const lowest = quantity === undefined ? range!.lowest : LOWEST_IRRADIANCE_W_M2;
    const highest = (i: number): number =>
      quantity === undefined
        ? range!.highest
        : highestPossible(quantity, sun.extraterrestrial_W_m2[i]!, sun.altitude_deg[i]!);
    const unit = source.unit as UnitName;
    const shown = quantity === undefined ? range!.unit : 'W/m2';
    const outside: number[] = [];
    for (let i = 0; i < values.length; i++) {
      if (values[i]! < lowest || values[i]! > highest(i)) outside.push(i);
    }
    // A few wrong values are faults; many are a wrong unit, or, of irradiance far from noon only, a wrong clock.
    const suspects =
      quantity === undefined ? outside : outside.filter((i) => Math.abs(sun.hourAngle_deg[i]! + 7.5) < 40);
    const better =
      suspects.length > values.length / 100 ? fittingUnit(values, unit, lowest, highest) : undefined;
    const clock = quantity === undefined ? undefined : clockHint(values, sun, mapping, series);
    for (const i of outside) {
      problems.add(`limit ${name}`, () => {
        const inFile = Number(fromCanonical(values[i]!, unit, 3600).toPrecision(12));
        const inOurs = unit === shown ? '' : ` (${round(values[i]!)} ${shown})`;
        const limits = `${round(lowest)} to ${round(highest(i))} ${shown}`;
        return {
          code: 'WEATHER_VALUE_OUT_OF_RANGE',
          file,
          line: series.line[i]!,
          field: source.column,
          got: `${inFile} ${unit}${inOurs} in the hour from ${utcText(series.start_ms + i * HOUR_MS)}`,
          expected:
            quantity === undefined
              ? limits
              : `${limits} with the sun at ${round(sun.altitude_deg[i]!)} degrees`,
          fix:
            better !== undefined
              ? `are latitude and longitude right, with their signs? If so, is the column in ${better}? Then set weather.columns.${name}.unit: ${better}.`
              : /^-|^9+(\.9*)?$/.test(String(inFile))
                ? `if ${inFile} stands for 'missing', add "${inFile}" to weather.missing; else correct the value.`
                : (clock ?? 'correct the value.'),
        };
      });
    }
  }
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

function round(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
