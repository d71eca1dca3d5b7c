import type { ProblemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import { geometricAltitude } from '../sun/solarPosition.ts';
import { type SunColumns, sunWithinHour } from '../sun/sunColumns.ts';
import type { HourlyMapping, HourlySeries } from '../tables/hourlyTable.ts';
import { clockHint } from './clockHint.ts';
import { HIGHEST_NIGHT_W_M2, SUN_DOWN_DEG } from './limits.ts';

/**
 * Puts radiation at night on the list of problems, with the likely fix where the light as a whole stands hours off
 * solar noon.
 *
 * in: file, name for messages; series, columns named as in the scenario; mapping they were read by; sun over the same hours
 * out: for each hour, 1 where the sun is down (below -6 degrees throughout); problems grows
 * source: ISO9060 for what an offset explains
 */
export function checkSunDown(
  file: string,
  series: HourlySeries,
  mapping: HourlyMapping,
  sun: SunColumns,
  problems: ProblemList,
): Uint8Array {
  const down = new Uint8Array(series.count);
  for (let i = 0; i < series.count; i++) if (isDown(sun, i)) down[i] = 1;
  for (const name of ['ghi', 'dni', 'dhi']) {
    const values = series.columns[name];
    const source = mapping.columns[name];
    if (values === undefined || source === undefined) continue;
    for (let i = 0; i < values.length; i++) {
      if (down[i] === 0 || !(values[i]! > HIGHEST_NIGHT_W_M2)) continue;
      problems.add(`sun down ${name}`, () => ({
        code: 'WEATHER_SUN_DOWN',
        file,
        line: series.line[i]!,
        field: source.column,
        got: `${Math.round(values[i]! * 10) / 10} W/m2 in the hour from ${utcText(series.start_ms + i * HOUR_MS)}, with the sun at ${Math.round(sun.altitude_deg[i]!)} degrees`,
        expected: `at most ${HIGHEST_NIGHT_W_M2} W/m2 while the sun is more than 6 degrees below the horizon`,
        fix: fixOf(values, i, sun, mapping, series),
      }));
    }
  }
  return down;
}

function isDown(sun: SunColumns, i: number): boolean {
  if (sun.altitude_deg[i]! > SUN_DOWN_DEG + 1) return false;
  return [0, 0.5, 1].every(
    (part) => geometricAltitude(sunWithinHour(sun, i, part).altitude_deg) < SUN_DOWN_DEG,
  );
}

/** What to correct: a gap that somebody filled, the clock, else the values. */
function fixOf(
  values: Float64Array,
  i: number,
  sun: SunColumns,
  mapping: HourlyMapping,
  series: HourlySeries,
): string {
  let from = i;
  let to = i;
  while (from > 0 && values[from - 1] === values[i]) from--;
  while (to < values.length - 1 && values[to + 1] === values[i]) to++;
  const same = to - from + 1;
  if (same > 3)
    return `the same value stands in ${same} rows running: a gap that somebody filled; treat it as missing.`;
  return (
    clockHint(values, sun, mapping, series) ?? "correct the values, or name the code that says 'missing'."
  );
}
