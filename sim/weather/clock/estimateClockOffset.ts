import { deviation, mean, min, minIndex, range, sum } from 'd3-array';
import { exp } from '../../common/elementary/exp.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { power } from '../../common/elementary/power.ts';
import { square } from '../../common/numeric.ts';
import { everyDay, type FoldedDays } from './foldSeries.ts';
import {
  columnSums,
  FIRST_LOOK,
  FIRST_LOOK_MIN,
  firstLook,
  negativeLogLikelihood,
  shiftedLook,
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
  /** Best offset more than 90 minutes away, and by how many of its own standard deviations it is worse. */
  secondMode_min: number;
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
  secondMode_min: 0,
  secondModeWorseBy: 0,
  cost: 0,
};

/**
 * Reads the clock of some days off the sun: stamp minus middle of the measured interval, in minutes, with its
 * uncertainty. An asymmetric climate (morning fog, afternoon cloud) is fitted beside it, so that the two ends of the day
 * outvote the balance of its halves.
 *
 * in: days, as folded, with the shifts of their clocks; firstCosts, the first look at them without any
 * out: the reading; 'undecided' with its reason where days are few, the uncertainty is above 7 minutes or another
 *   offset fits nearly as well
 * valid: latitudes -65 to 65; to 10 minutes
 */
export function estimateClockOffset(days: FoldedDays, firstCosts = firstLook(days)): ClockReading {
  const count = days.day_ms.length;
  if (count < LEAST_DAYS) return { ...TOO_FEW_DAYS, days: count };
  const used = everyDay(days, Math.ceil((count * 1440) / days.step_min / CLOSER_SAMPLES));
  const costs: CostTable = (offsets_min, asymmetry) => negativeLogLikelihood(used, offsets_min, asymmetry);
  const look = shiftedLook(firstCosts, days.shift_min);
  const sums = columnSums(look, FIRST_LOOK.length);
  const best = minIndex(sums);

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
  const secondMode = secondModeOf(look, sums, best);
  // Long steps leave coarser ends of days than the deviation knows of, and under cloud the shape of a clear day errs.
  const coarse = Math.max(1, days.step_min / 60);
  const uncertainty = hypot(
    coarse * Math.max(posterior.deviation_min, Math.min(spread, 720), 0.5),
    COARSE_AND_DULL_MIN * (coarse - 1) * dullness(days),
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
    days: used.day_ms.length,
    secondMode_min: secondMode.offset_min,
    secondModeWorseBy: secondMode.worseBy,
    cost: posterior.cost * (count / used.day_ms.length),
  };
}

/** How far the mean clearness falls short of one half, 0 to 1. */
function dullness({ clearness }: FoldedDays): number {
  return Math.max(0, 1 - 2 * mean(clearness)!);
}

/** Costs of the days looked at, a row a day, for offsets and an asymmetry. */
type CostTable = (offsets_min: readonly number[], asymmetry?: number) => Float64Array;

/** Cost of an asymmetry by how large they are as a rule. */
function unusual(asymmetry: number): number {
  return 0.5 * square(asymmetry / ASYMMETRY_USUAL);
}

/** One step of Newton's method in offset and asymmetry, and the spread of the offset over groups of days. */
function stencil(
  costs: CostTable,
  offset: number,
  asymmetry: number,
): { offset_min: number; asymmetry: number; spread_min: number } {
  const offsets = [offset - OFFSET_STEP_MIN, offset, offset + OFFSET_STEP_MIN];
  const tried = [asymmetry - ASYMMETRY_STEP, asymmetry, asymmetry + ASYMMETRY_STEP];
  const tables = tried.map((lean) => costs(offsets, lean));
  const sums = tables.map((table, q) => columnSums(table, 3).map((sum) => sum + unusual(tried[q]!)));
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
  const days = tables[1]!.length / 3;
  const groups = Math.min(days, 15);
  const groupStep = new Float64Array(groups);
  for (let d = 0; d < days; d++) {
    const x = (tables[1]![d * 3 + 2]! - tables[1]![d * 3]!) / 2;
    const l = (tables[2]![d * 3 + 1]! - tables[0]![d * 3 + 1]!) / 2;
    groupStep[Math.floor((d * groups) / days)]! += (secondL * x - secondXL * l) / det;
  }
  return {
    offset_min: limit(-(secondL * slopeX - secondXL * slopeL) / det) * OFFSET_STEP_MIN,
    asymmetry: limit(-(secondX * slopeL - secondXL * slopeX) / det) * ASYMMETRY_STEP,
    spread_min: deviation(groupStep)! * Math.sqrt(groups) * OFFSET_STEP_MIN,
  };
}

/** Mean and deviation of the offset by its likelihood, an hour either way, the best asymmetry at each. */
function posteriorOf(
  costs: CostTable,
  offset: number,
  asymmetry: number,
): { mean_min: number; deviation_min: number; cost: number } {
  const away_min = range(-60, 60.1, 7.5);
  const tables = [asymmetry - ASYMMETRY_STEP, asymmetry, asymmetry + ASYMMETRY_STEP].map((tried) => {
    const offsets = away_min.map((minutes) => offset + minutes);
    return columnSums(costs(offsets, tried), offsets.length).map((cost) => cost + unusual(tried));
  });
  const best = away_min.map((_, j) => min(tables, (table) => table[j])!);
  const lowest = min(best)!;
  const weights = best.map((cost) => exp(-(cost - lowest) / VARIANCE_INFLATION));
  const moment = (order: number): number =>
    sum(weights, (weight, j) => weight * power(away_min[j]!, order)) / sum(weights);
  const deviation_min = Math.sqrt(Math.max(0, moment(2) - square(moment(1))));
  // A bowl sharper than the grid is better known by Newton's method.
  return { mean_min: deviation_min < 3 ? offset : offset + moment(1), deviation_min, cost: lowest };
}

/** The best offset more than 90 minutes from the best one, and how sure the days are that it is worse. */
function secondModeOf(
  look: Float64Array,
  sums: Float64Array,
  best: number,
): { offset_min: number; worseBy: number } {
  const width = FIRST_LOOK.length;
  let secondMode = -1;
  for (let j = 0; j < width; j++) {
    const apart = Math.abs(wrapped((j - best) * FIRST_LOOK_MIN));
    if (apart > 90 && (secondMode < 0 || sums[j]! < sums[secondMode]!)) secondMode = j;
  }
  const worse = Array.from(
    { length: look.length / width },
    (_, d) => look[d * width + secondMode]! - look[d * width + best]!,
  );
  const uncertainty = deviation(worse)! / Math.sqrt(worse.length);
  return { offset_min: FIRST_LOOK[secondMode]!, worseBy: mean(worse)! / Math.max(uncertainty, 1e-9) };
}
