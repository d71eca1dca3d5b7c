import { deviation, mean, min, minIndex, range, sum } from 'd3-array';
import { exp } from '../../common/elementary/exp.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { power } from '../../common/elementary/power.ts';
import { square } from '../../common/numeric.ts';
import { everyDay, type FoldedSeries } from './foldSeries.ts';
import {
  FIRST_LOOK,
  FIRST_LOOK_MIN,
  firstLook,
  negativeLogLikelihood,
  shiftedLook,
  sumOfDays,
  wrapped,
} from './negativeLogLikelihood.ts';

/** What the sun says about the stamps of a stretch of days. */
export interface ClockReading {
  verdict: 'decided' | 'undecided';
  /** Why it is undecided; empty where it is decided. */
  reason: string;
  /** Stamp minus middle of the measured interval, -720 to 720 minutes; the best guess where undecided. */
  offset_min: number;
  /** Standard uncertainty of that. */
  uncertainty_min: number;
  /** How much clearer afternoons are than mornings, as a logarithm: half the difference. */
  asymmetry: number;
  /** Days the reading rests on. */
  days: number;
  /** By how many of its own standard deviations the best offset more than 90 minutes away is worse. */
  secondModeWorseBy: number;
  /** Cost at the best offset, for comparing models of the same days. */
  cost: number;
}

/** Most samples the closer look uses; a year of hours settles a clock to a minute. */
const CLOSER_SAMPLES = 9_000;
/** Stencil of the closer look: minutes of offset, and asymmetry. */
const OFFSET_STEP_MIN = 10;
const ASYMMETRY_STEP = 0.3;
/** Days are asymmetric by this much as a rule (standard deviation, common practice, no source). */
const ASYMMETRY_USUAL = 0.6;
/** Samples are not independent and the model is not the truth: costs are divided by this. */
const VARIANCE_INFLATION = 2;
/** An uncertainty above this cannot promise ten minutes. */
const MOST_UNCERTAIN_MIN = 7;
/** Error of three-hour steps for each hour above one, under the thickest cloud, minutes (measured on invented skies). */
const COARSE_AND_DULL_MIN = 8;
const LEAST_DAYS = 3;
const LEAST_SECOND_MODE = 3;
const TOO_FEW_DAYS: Omit<ClockReading, 'days'> = {
  verdict: 'undecided',
  reason: 'fewer than three days with enough values',
  offset_min: 0,
  uncertainty_min: 720,
  asymmetry: 0,
  secondModeWorseBy: 0,
  cost: 0,
};

/**
 * Reads the clock of some days off the sun: stamp minus middle of the measured interval, in minutes, with its
 * uncertainty. An asymmetric climate (morning fog, afternoon cloud) is fitted beside it, so that the two ends of the day
 * outvote the balance of its halves.
 *
 * in: folded, days with the shifts of their clocks; firstCosts, the first look at them without any
 * out: the reading; 'undecided' with its reason where days are few, the uncertainty is above 7 minutes or another
 *   offset fits nearly as well
 * valid: latitudes -65 to 65; to 10 minutes
 */
export function estimateClockOffset(
  folded: FoldedSeries,
  firstCosts: readonly Float64Array[] = firstLook(folded),
): ClockReading {
  const { days, step_min } = folded;
  const count = days.length;
  if (count < LEAST_DAYS) return { ...TOO_FEW_DAYS, days: count };
  const used = everyDay(folded, Math.ceil((count * 1440) / step_min / CLOSER_SAMPLES));
  const costs: Costs = (offsets_min, asymmetry) => negativeLogLikelihood(used, offsets_min, asymmetry);
  const shifts_min = days.map(({ shift_min }) => shift_min);
  const look = shiftedLook(firstCosts, shifts_min);
  const best = minIndex(sumOfDays(look));

  let offset = FIRST_LOOK[best]!;
  let asymmetry = 0;
  let spread = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 6; turn++) {
    const step = stencil(costs, offset, asymmetry);
    offset += step.offset_min;
    asymmetry += step.asymmetry;
    spread = step.spread_min;
    if (Math.abs(step.offset_min) < 0.5 && Math.abs(step.asymmetry) < 0.03) break;
  }
  const posterior = posteriorOf(costs, offset, asymmetry);
  const secondMode = secondModeOf(look, best);
  // Long steps leave coarser ends of days than the deviation knows of, and under cloud the shape of a clear day errs.
  const coarse = Math.max(1, step_min / 60);
  const uncertainty = hypot(
    coarse * Math.max(posterior.deviation_min, Math.min(spread, 720), 0.5),
    COARSE_AND_DULL_MIN * (coarse - 1) * dullness(folded),
  );
  const reason =
    secondMode.worseBy < LEAST_SECOND_MODE
      ? `an offset of ${secondMode.offset_min} minutes fits nearly as well`
      : uncertainty > MOST_UNCERTAIN_MIN
        ? `uncertain by ${uncertainty.toFixed(0)} minutes`
        : '';
  return {
    verdict: reason === '' ? 'decided' : 'undecided',
    reason,
    offset_min: wrapped(posterior.mean_min),
    uncertainty_min: uncertainty,
    asymmetry,
    days: used.days.length,
    secondModeWorseBy: secondMode.worseBy,
    cost: posterior.cost * (count / used.days.length),
  };
}

/** How far the mean clearness falls short of one half, 0 to 1. */
function dullness({ clearness }: FoldedSeries): number {
  return Math.max(0, 1 - 2 * mean(clearness)!);
}

/** Costs of each of the days looked at, for offsets and an asymmetry. */
type Costs = (offsets_min: readonly number[], asymmetry: number) => Float64Array[];

/** Costs of offsets at three asymmetries: of each day, and all together with what the asymmetry itself costs, being rare. */
function besideAsymmetry(costs: Costs, offsets_min: readonly number[], asymmetry: number) {
  const tried = [asymmetry - ASYMMETRY_STEP, asymmetry, asymmetry + ASYMMETRY_STEP];
  const tables = tried.map((lean) => costs(offsets_min, lean));
  const rare = tried.map((lean) => 0.5 * square(lean / ASYMMETRY_USUAL));
  return { tables, sums: tables.map((table, q) => sumOfDays(table).map((cost) => cost + rare[q]!)) };
}

/** One step of Newton's method in offset and asymmetry, and the spread of the offset over groups of days. */
function stencil(
  costs: Costs,
  offset: number,
  asymmetry: number,
): { offset_min: number; asymmetry: number; spread_min: number } {
  const offsets = [offset - OFFSET_STEP_MIN, offset, offset + OFFSET_STEP_MIN];
  const { tables, sums } = besideAsymmetry(costs, offsets, asymmetry);
  const [low, mid, high] = sums as [Float64Array, Float64Array, Float64Array];
  const slopeX = (mid[2]! - mid[0]!) / 2;
  const slopeL = (high[1]! - low[1]!) / 2;
  const secondX = mid[2]! - 2 * mid[1]! + mid[0]!;
  const secondL = high[1]! - 2 * mid[1]! + low[1]!;
  const secondXL = (high[2]! - high[0]! - low[2]! + low[0]!) / 4;
  const det = secondX * secondL - secondXL * secondXL;
  if (!(det > 0 && secondX > 0)) {
    // Not a bowl yet: go to the best of the nine.
    const nine = Float64Array.from([...low, ...mid, ...high]);
    const at = minIndex(nine);
    return {
      offset_min: ((at % 3) - 1) * OFFSET_STEP_MIN,
      asymmetry: (Math.floor(at / 3) - 1) * ASYMMETRY_STEP,
      spread_min: Number.POSITIVE_INFINITY,
    };
  }
  const limit = (value: number): number => Math.max(-2, Math.min(2, value));
  const [lower = [], middle = [], upper = []] = tables;
  const groups = Math.min(middle.length, 15);
  const groupStep = new Float64Array(groups);
  for (const [d, day] of middle.entries()) {
    const x = (day[2]! - day[0]!) / 2;
    const l = (upper[d]![1]! - lower[d]![1]!) / 2;
    groupStep[Math.floor((d * groups) / middle.length)]! += (secondL * x - secondXL * l) / det;
  }
  return {
    offset_min: limit(-(secondL * slopeX - secondXL * slopeL) / det) * OFFSET_STEP_MIN,
    asymmetry: limit(-(secondX * slopeL - secondXL * slopeX) / det) * ASYMMETRY_STEP,
    spread_min: deviation(groupStep)! * Math.sqrt(groups) * OFFSET_STEP_MIN,
  };
}

/** Mean and deviation of the offset by its likelihood, an hour either way, the best asymmetry at each. */
function posteriorOf(
  costs: Costs,
  offset: number,
  asymmetry: number,
): { mean_min: number; deviation_min: number; cost: number } {
  const away_min = range(-60, 60.1, 7.5);
  const offsets = away_min.map((minutes) => offset + minutes);
  const { sums } = besideAsymmetry(costs, offsets, asymmetry);
  const best = away_min.map((_, j) => min(sums, (costsOf) => costsOf[j])!);
  const lowest = min(best)!;
  const weights = best.map((cost) => exp(-(cost - lowest) / VARIANCE_INFLATION));
  const moment = (order: number): number =>
    sum(weights, (weight, j) => weight * power(away_min[j]!, order)) / sum(weights);
  const deviation_min = Math.sqrt(Math.max(0, moment(2) - square(moment(1))));
  // A bowl sharper than the grid is better known by Newton's method.
  return { mean_min: deviation_min < 3 ? offset : offset + moment(1), deviation_min, cost: lowest };
}

/** The best offset more than 90 minutes from the best one, and how sure the days are that it is worse. */
function secondModeOf(look: readonly Float64Array[], best: number): { offset_min: number; worseBy: number } {
  const isApart = (j: number): boolean => Math.abs(wrapped((j - best) * FIRST_LOOK_MIN)) > 90;
  const secondMode = minIndex(sumOfDays(look), (cost, j) => (isApart(j) ? cost : Number.NaN));
  const worse = look.map((day) => day[secondMode]! - day[best]!);
  const uncertainty = deviation(worse)! / Math.sqrt(worse.length);
  return { offset_min: FIRST_LOOK[secondMode]!, worseBy: mean(worse)! / Math.max(uncertainty, 1e-9) };
}
