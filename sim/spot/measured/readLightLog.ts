import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { problemList } from '../../common/problemList.ts';
import type { NamedBytes } from '../../tables/TableSource.ts';
import type { UnitName } from '../../tables/units.ts';
import { toCanonical } from '../../tables/units.ts';
import type { LightLog } from '../SpotFiles.ts';
import type { MeasuredLight } from '../spotParams.ts';
import { readLog } from './readLog.ts';

/**
 * Readings of a light logger from a CSV file, in W/m2, at any step of up to an hour. Gaps are no fault of a log.
 *
 * in: file, name and bytes; log, its mapping
 * out: readings in the order of time
 * throws: SPOT_PROFILE for a log that cannot be (saturated, negative, too bright); what `readLog` throws
 */
export function readLightLog(file: NamedBytes, log: MeasuredLight): LightLog {
  const { stamp_ms, value, line, step_ms } = readLog(file, { ...log, missingKey: 'measured_light.missing' });
  const shift_ms = { start: 0, middle: step_ms / 2, end: step_ms }[log.stamp.marks];
  const lux = log.unit === 'lux' || log.unit === 'klux';
  const perLux = (log.unit === 'klux' ? 1000 : 1) / log.lumen_per_W;
  const readings = {
    time_ms: Float64Array.from(stamp_ms, (each) => each - shift_ms),
    light_W_m2: Float64Array.from(value, (each) =>
      lux ? each * perLux : toCanonical(each, log.unit as UnitName, step_ms / 1000),
    ),
    step_s: step_ms / 1000,
  };
  checkLog(file.name, log, readings, Uint32Array.from(line));
  return readings;
}

/** This many readings at exactly the highest, over an hour in a row or as this share of the lit ones, are a flat top. */
const FLAT_READINGS = 3;
const FLAT_SHARE = 0.1;
/** Readings this near to the highest count as the highest. */
const FLAT_NEAR = 1e-4;

/** Refuses a log that cannot be. */
function checkLog(
  file: string,
  log: MeasuredLight,
  { light_W_m2, step_s }: LightLog,
  line: Uint32Array,
): void {
  const shown = (light: number) =>
    log.unit === 'lux' || log.unit === 'klux'
      ? `${Number(((light * log.lumen_per_W) / (log.unit === 'klux' ? 1000 : 1)).toPrecision(6))} ${log.unit}`
      : `${Number(light.toPrecision(6))} W/m2`;
  const all = notDaylight(
    light_W_m2,
    line,
    { code: 'SPOT_PROFILE', file, field: log.column },
    log.unit,
    shown,
  );
  const most = light_W_m2.reduce((high, value) => Math.max(high, value), 0);
  const lit = light_W_m2.filter((value) => value > 0).length;
  const top = [...light_W_m2.keys()].filter((i) => most > 0 && light_W_m2[i]! >= most * (1 - FLAT_NEAR));
  const row = Math.max(FLAT_READINGS, Math.ceil(3600 / step_s));
  const inRow = top.some((i, k) => top[k + row - 1] === i + row - 1);
  if (inRow || (top.length >= FLAT_READINGS && top.length >= FLAT_SHARE * lit)) {
    all.push({
      code: 'SPOT_PROFILE',
      file,
      line: line[top[0]!]!,
      field: log.column,
      got: `a flat top: ${top.length} of ${lit} lit readings are ${shown(most)}`,
      expected: 'a sensor that does not reach its limit',
      fix: 'log again with a wider range, or under a sheet of paper whose share you know.',
    });
  }
  if (all.length > 0) throw new InputProblem(all);
}

/**
 * Problems of readings that cannot be daylight: below -10 W/m2 is no sensor's offset, above 1600 no sun on the ground.
 *
 * in: light_W_m2; line of each; at, code, file and column of the problems; unit the file states; shown, a reading in
 *   the words of the file
 */
export function notDaylight(
  light_W_m2: Float64Array,
  line: Uint32Array,
  at: Pick<Problem, 'code'> & { file: string; field: string },
  unit: string,
  shown: (light_W_m2: number) => string,
): Problem[] {
  const problems = problemList();
  light_W_m2.forEach((value, i) => {
    if (value >= -10 && value <= 1600) return;
    problems.add('range', () => ({
      ...at,
      line: line[i]!,
      got: shown(value),
      expected: 'daylight, -10 to 1600 W/m2',
      fix: `check the unit (${unit} is stated) and the sensor.`,
    }));
  });
  return problems.list();
}
