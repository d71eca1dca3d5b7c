import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

/** A stretch on a straight line, and what shows that nobody measured it. */
export interface StraightLine extends Stretch {
  evidence: string;
}

const FEWEST_POINTS = 4;
/** Points a line needs that stays in the day. A cloudless sky gives at most 4, written in steps of 10 W/m2 at most 6. */
const FEWEST_DAY_POINTS = 8;
const FEWEST_DAY_POINTS_COARSE = 11;
/** Steps of the resolution that it must rise or fall by, for coarse steps make lines of dull mornings. */
const LEAST_DAY_STEPS = 40;
/** Steps from which it is no more coarse. */
const FINE_DAY_STEPS = 200;

/**
 * Stretches in which the light follows a straight line up or down through the night or for more hours of the day than
 * any sky does: a gap filled by interpolation.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches in order, without the measured hours at the two ends of the line
 * valid: lines to half a step of the resolution
 */
export function straightLines(
  values: Float64Array,
  light: SunLight,
  resolution_W_m2: number,
): StraightLine[] {
  const slack = 0.51 * resolution_W_m2 + 1e-6;
  const found: StraightLine[] = [];
  let i = 0;
  while (i + FEWEST_POINTS <= values.length) {
    const end = lineEnd(values, i, slack);
    const points = end - i;
    const line = points >= FEWEST_POINTS ? judge(values, light, i, end, resolution_W_m2) : undefined;
    if (line === undefined) {
      i++;
      continue;
    }
    found.push(line);
    i = end - 1;
  }
  return found;
}

/** The index after the last value that lies on one line through value i. */
function lineEnd(values: Float64Array, i: number, slack: number): number {
  const start = values[i]!;
  if (Number.isNaN(start)) return i;
  let lowest = Number.NEGATIVE_INFINITY;
  let highest = Number.POSITIVE_INFINITY;
  let end = i + 1;
  for (; end < values.length; end++) {
    const rise = values[end]! - start;
    if (Number.isNaN(rise)) break;
    lowest = Math.max(lowest, (rise - slack) / (end - i));
    highest = Math.min(highest, (rise + slack) / (end - i));
    if (lowest > highest) break;
  }
  return end;
}

function judge(
  values: Float64Array,
  light: SunLight,
  from: number,
  end: number,
  resolution_W_m2: number,
): StraightLine | undefined {
  const first = values[from]!;
  const last = values[end - 1]!;
  const rise = Math.abs(last - first);
  if (rise <= 3 * resolution_W_m2 || Math.max(first, last) <= HIGHEST_NIGHT_W_M2) return undefined;
  let dark = 0;
  for (let i = from + 1; i < end - 1; i++) {
    if (light.dark[i] && values[i]! > HIGHEST_NIGHT_W_M2) dark++;
  }
  const points = end - from;
  const steep = rise > LEAST_DAY_STEPS * resolution_W_m2;
  const fewest = rise > FINE_DAY_STEPS * resolution_W_m2 ? FEWEST_DAY_POINTS : FEWEST_DAY_POINTS_COARSE;
  if (dark < 2 && (points < fewest || !steep)) return undefined;
  const ends = `from ${Math.round(first)} to ${Math.round(last)} W/m2`;
  const place = dark > 0 ? `through the night, ${dark} of its hours dark` : 'without a bend';
  return { from: from + 1, to: end - 1, evidence: `a straight line ${ends} over ${points} hours, ${place}` };
}
