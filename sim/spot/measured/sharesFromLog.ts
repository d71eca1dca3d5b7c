import { sum } from 'd3-array';
import { InputProblem } from '../../common/InputProblem.ts';
import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import { planeLightInto } from '../planeLight.ts';
import type { OpenSky } from '../sky/skyColumns.ts';
import type { MeasuredLight } from '../spotParams.ts';
import { leastSquares2 } from './leastSquares2.ts';
import type { PlacedLog } from './placedLog.ts';

/** What a log gave: what was seen of the light that the model expects. */
export interface MeasuredShares {
  replaces: MeasuredLight['replaces'];
  /** Share of the beam, and of the diffuse light (what obstacles return included); 0 or more. */
  beam: number;
  diffuse: number;
  /** Standard errors of the two. */
  beamError: number;
  diffuseError: number;
  /** Hours of light the log holds beside weather, and the days they lie in. */
  hours: number;
  days: number;
  /** Root mean square of log minus model, and mean of the log, over those hours. */
  misfit_W_m2: number;
  mean_W_m2: number;
  /** Mean of log minus model by hour of the day at mean solar time (0 to 23); NaN where the log has no light. */
  misfitByHour_W_m2: Float64Array;
}

/**
 * What share of the beam and of the diffuse light reaches a spot, without unit, from a log of light there beside the
 * weather of the same days: the two shares, neither negative, that bring the model nearest to the log.
 *
 * in: placed, the log; open, the sky of its days
 * out: shares, their standard errors (days count as readings, not hours), and the misfit by hour of the day
 * throws: FIT_UNDETERMINED where the log does not settle the shares (no sun, all dark, days all alike)
 * valid: a bare sensor that follows the cosine; one share for the beam of all hours: a house that hides the sun only in
 *   the morning shows in the misfit by hour
 */
export function sharesFromLog({ log, light_W_m2, sensor }: PlacedLog, open: OpenSky): MeasuredShares {
  const { sun } = open.calendar;
  const from = light_W_m2.findIndex((light) => !Number.isNaN(light));
  const to = light_W_m2.findLastIndex((light) => !Number.isNaN(light)) + 1;

  const column = () => new Float64Array(sun.count);
  const model = { beam_W_m2: column(), sky_W_m2: column(), reflected_W_m2: column() };
  planeLightInto(model, sensor, open, from, to);
  const rows: Row[] = [];
  for (let i = from; i < to; i++) {
    if (!(sun.upShare[i]! > 0) || Number.isNaN(light_W_m2[i]!)) continue;
    rows.push({
      beam: model.beam_W_m2[i]!,
      diffuse: model.sky_W_m2[i]! + model.reflected_W_m2[i]!,
      read: Math.max(light_W_m2[i]!, 0),
      hourAngle_deg: sun.hourAngle_deg[i]!,
      day: Math.floor(solar_ms(sun.start_ms, i, sun.hourAngle_deg[i]!) / DAY_MS),
    });
  }
  const fit = checkFit(log.file, log, rows);
  return { replaces: log.replaces, ...fit, ...misfits(fit, rows) };
}

/** One hour of light: what the model expects in W/m2, and what was read. */
interface Row {
  beam: number;
  diffuse: number;
  read: number;
  hourAngle_deg: number;
  day: number;
}

/** Less beam than this share of the model's light settles nothing about the beam. */
const LEAST_BEAM = 0.03;

/** Middle of an hour on a clock that shows noon at solar noon of its day, near enough to tell days apart. */
function solar_ms(start_ms: number, i: number, hourAngle_deg: number): number {
  const utc_ms = start_ms + i * HOUR_MS;
  const hour = (((hourAngle_deg / 15 + 12) % 24) + 24) % 24;
  const utcHour = (utc_ms % DAY_MS) / HOUR_MS;
  const shift = ((hour - utcHour + 36) % 24) - 12;
  return utc_ms + (shift + 0.5) * HOUR_MS;
}

type Fit = Pick<MeasuredShares, 'beam' | 'diffuse' | 'beamError' | 'diffuseError' | 'hours' | 'days'>;

function checkFit(file: string, log: MeasuredLight, rows: readonly Row[]): Fit {
  const column = (key: keyof Row) => rows.map((row) => row[key]);
  const [beam, diffuse, read, days] = [column('beam'), column('diffuse'), column('read'), column('day')];
  const [beamSum, diffuseSum] = [sum(beam), sum(diffuse)];
  const fail = (got: string, fix: string) =>
    new InputProblem({
      code: 'FIT_UNDETERMINED',
      file,
      field: log.column,
      got,
      expected: 'days with sun and with cloud, so that beam and diffuse light can be told apart',
      fix,
    });
  if (!(sum(read) > 0)) throw fail('no light at all', 'check the column and the sensor.');
  const expected = beamSum + diffuseSum;
  if (!(beamSum > LEAST_BEAM * expected)) {
    throw fail(
      `days on which the beam makes ${((100 * beamSum) / expected).toFixed(1)} percent of the light expected`,
      'log on until the sun has shone, or state a shading factor instead.',
    );
  }
  const fit = leastSquares2(beam, diffuse, read, days);
  if (fit === undefined) {
    throw fail('days that are all alike', 'log on until the weather has changed.');
  }
  return {
    beam: fit.a,
    diffuse: fit.b,
    beamError: fit.aError,
    diffuseError: fit.bError,
    hours: read.length,
    days: new Set(days).size,
  };
}

function misfits(
  fit: Fit,
  rows: readonly Row[],
): Pick<MeasuredShares, 'misfit_W_m2' | 'mean_W_m2' | 'misfitByHour_W_m2'> {
  const sums = new Float64Array(24);
  const counts = new Float64Array(24);
  let squares = 0;
  for (const { beam, diffuse, read, hourAngle_deg } of rows) {
    const missed = read - fit.beam * beam - fit.diffuse * diffuse;
    const hour = Math.floor(((((hourAngle_deg + 7.5) / 15 + 12) % 24) + 24) % 24);
    sums[hour]! += missed;
    counts[hour]! += 1;
    squares += missed * missed;
  }
  return {
    misfit_W_m2: Math.sqrt(squares / rows.length),
    mean_W_m2: sum(rows, ({ read }) => read) / rows.length,
    misfitByHour_W_m2: sums.map((all, hour) => (counts[hour]! > 0 ? all / counts[hour]! : Number.NaN)),
  };
}
