import { CLEAR_STEP_MIN } from './clearDay.ts';
import type { FoldedDays } from './foldSeries.ts';

/**
 * Spread of the logarithm of clearness that is taken as weather, not as clock. Wider than weather is (about 0.5), on
 * purpose: the clear-sky model is wrong by as much at the horizon under cloud, and a narrow one made the sum lumpy.
 */
const SPREAD = 0.8;
/** How fast clearness forgets itself, hours. */
const MEMORY_H = 0.3;
const FREEDOM = 4;
/** Logarithms nearer to zero than this cost nothing worth working out: the night. */
const NOTHING = 0.02;
/** Hours from noon over which an asymmetric day leans from none to all. */
const LEAN_H = 4;

/** What else may shift or lean the days. */
export interface CostOptions {
  /** Logarithm by which afternoons are clearer than the middle of the day, and mornings duller; 0 by default. */
  asymmetry?: number;
  /** Added to the offset of each folded day, minutes; none by default. */
  dayShift_min?: Float64Array;
}

/**
 * How badly the series fits the sun, day by day, for every offset of its stamps: the negative logarithm of the
 * likelihood of each sample given its neighbour (dimensionless). Costs of days add.
 *
 * The logarithm of irradiance over clear-sky irradiance wanders slowly whatever the cloud, fog or season, so that a
 * dull climate costs little; with the clock off it leaps at both ends of the day, where light stands in the dark or
 * none in the light. Each pair of neighbours is judged forwards and backwards, for a sum that looks one way in time
 * favours one end of the day. The distribution has heavy tails, so that single bad rows cost little.
 *
 * in: days, as folded; which, the days wanted; offsets_min, stamp minus middle of the interval
 * out: cost of day which[d] at offset j in [d * offsets + j]
 * valid: steps of 10 minutes to 3 hours
 * source: StudentT for the heavy-tailed distribution
 */
export function negativeLogLikelihood(
  days: FoldedDays,
  which: ArrayLike<number>,
  offsets_min: ArrayLike<number>,
  { asymmetry = 0, dayShift_min }: CostOptions = {},
): Float64Array {
  const width = offsets_min.length;
  const costs = new Float64Array(which.length * width);
  const { phase_min, logGhi, clearness, clearIndex, follows, dayFirst } = days;
  const grain = days.grain_W_m2;
  const logGrain = Math.log(grain);
  const dark = NOTHING * grain;
  const memory = Math.exp(-days.step_min / 60 / MEMORY_H);
  const scale = 1 / (FREEDOM * SPREAD * SPREAD * (1 - memory * memory));
  const scaleAlone = 1 / (FREEDOM * SPREAD * SPREAD);
  const weight = (FREEDOM + 1) / 2;
  const clearDays = days.clearDays.map((means) => lean(means, asymmetry));
  const turn = 1440 / CLEAR_STEP_MIN;

  for (let d = 0; d < which.length; d++) {
    const day = which[d]!;
    const first = dayFirst[day]!;
    const last = dayFirst[day + 1]!;
    for (let j = 0; j < width; j++) {
      const offset = offsets_min[j]! + (dayShift_min?.[day] ?? 0);
      let cost = 0;
      let before = 0;
      for (let i = first; i < last; i++) {
        let position = (phase_min[i]! - offset) / CLEAR_STEP_MIN;
        position -= Math.floor(position / turn) * turn;
        const low = position | 0;
        const means = clearDays[clearIndex[i]!]!;
        const here = means[low]!;
        const clear = here + (position - low) * (means[low + 1]! - here);
        const light = clearness[i]! * clear;
        const ratio = logGhi[i]! - (light < dark ? logGrain : Math.log(light + grain));
        if (follows[i] === 1) {
          if (Math.abs(ratio) + Math.abs(before) < NOTHING) {
            before = ratio;
            continue;
          }
          const leap = ratio - memory * before;
          const back = before - memory * ratio;
          cost += 0.5 * Math.log((1 + leap * leap * scale) * (1 + back * back * scale));
        } else {
          cost += Math.log(1 + ratio * ratio * scaleAlone);
        }
        before = ratio;
      }
      costs[d * width + j] = cost * weight;
    }
  }
  return costs;
}

/** A clear day with its afternoon raised and its morning lowered by up to the factor exp(asymmetry). */
function lean(means: Float64Array, asymmetry: number): Float64Array {
  if (asymmetry === 0) return means;
  return means.map((mean, i) => {
    const hours = (i * CLEAR_STEP_MIN) / 60 - 12;
    return mean * Math.exp(asymmetry * Math.max(-1, Math.min(1, hours / LEAN_H)));
  });
}
