import { mean } from 'simple-statistics';
import { estimateClockOffset } from './estimateClockOffset.ts';
import type { FoldedDays } from './foldSeries.ts';
import {
  clearDay,
  columnSums,
  FIRST_LOOK,
  leastIndex,
  negativeLogLikelihood,
  wrapped,
} from './negativeLogLikelihood.ts';

export interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

/** A slip of the pen that would bring a claimed place to where the sun says the series was taken. */
export interface PlaceSlip extends Place {
  slip: 'sign of longitude' | 'sign of latitude' | 'both signs' | 'swapped' | 'swapped and sign wrong';
  /** Stamp minus middle of the interval if the place were this one, minutes. */
  offset_min: number;
  /** How much better than the claimed latitude the lengths of the days fit, in units of log-likelihood. */
  betterBy: number;
}

/** What the lengths of the days through the seasons say about the claimed place. */
export interface SiteReading {
  /** Of the latitude alone: longitude and clock look the same to the sun. */
  verdict: 'fits' | 'cannot be right' | 'undecided';
  /** Latitude that fits the lengths of the days best, to about 5 degrees; NaN where nothing is known. */
  latitudeSeen_deg: number;
  /** All slips that fit the lengths of the days as well as any does, the claimed place left out. */
  slips: PlaceSlip[];
}

/** Days looked at. */
const DAYS = 60;
/** Log-likelihood by which another latitude must be better before the claimed one is doubted. */
const LEAST_BETTER = 20;
/** Mean cost is divided by this; see estimateClockOffset. */
const VARIANCE_INFLATION = 2;
const LATITUDES_DEG: readonly number[] = Array.from({ length: 14 }, (_, i) => (i - 6.5) * 10);
const HALF_STEP_DEG = 5;
/** A latitude seen this near to the claimed one is no ground for doubt, degrees. */
const NEAR_DEG = 17;

/**
 * Asks the lengths of the days whether the claimed place can be right, and whether a changed sign or swapped
 * coordinates would make it so; with the offset (minutes) that each such place would give the stamps. A wrong
 * longitude alone moves the offset by 4 minutes a degree and is seen only there.
 *
 * in: allDays, as folded at the claimed place; claimed
 * out: verdict on the latitude, the latitude seen, the slips that fit
 * valid: latitudes -65 to 65; 'undecided' where the days have nearly one length at every latitude (around an equinox)
 */
export function checkSiteBySun(allDays: FoldedDays, claimed: Place): SiteReading {
  const count = allDays.day_ms.length;
  if (count < 3) return { verdict: 'undecided', latitudeSeen_deg: Number.NaN, slips: [] };
  const stride = Math.max(1, Math.floor(count / DAYS));
  const some = Array.from({ length: Math.ceil(count / stride) }, (_, i) => i * stride);
  const days = takeDays(allDays, some);
  const which = some.map((_, i) => i);
  const costs = new Map<number, number>();
  const costAt = (latitude_deg: number): number => {
    const known = costs.get(latitude_deg);
    if (known !== undefined) return known;
    const cost = leastCost(foldAt(days, claimed, { ...claimed, latitude_deg }), which);
    costs.set(latitude_deg, cost);
    return cost;
  };
  const offsets = new Map<number, number>();
  const offsetAt = (latitude_deg: number): number => {
    const known = offsets.get(latitude_deg);
    if (known !== undefined) return known;
    const { offset_min } = estimateClockOffset(foldAt(days, claimed, { ...claimed, latitude_deg }), which);
    offsets.set(latitude_deg, offset_min);
    return offset_min;
  };
  const here = costAt(claimed.latitude_deg);
  const scan = LATITUDES_DEG.map(costAt);
  const near = LATITUDES_DEG[leastIndex(scan)]!;
  const finer = [near - HALF_STEP_DEG, near, near + HALF_STEP_DEG];
  const seen = finer[leastIndex(finer.map(costAt))]!;
  const slips = possibleSlips(claimed).filter((slip) => Math.abs(slip.latitude_deg) <= 66.5);
  const bestOfAll = Math.min(here, costAt(seen), ...slips.map((slip) => costAt(slip.latitude_deg)));
  const doubted = here - bestOfAll > LEAST_BETTER && Math.abs(seen - claimed.latitude_deg) > NEAR_DEG;
  const flat = Math.max(...scan) - Math.min(...scan) < LEAST_BETTER;

  const fitting = slips.filter(
    (slip) => costAt(slip.latitude_deg) - bestOfAll <= LEAST_BETTER * (doubted ? 4 : 1),
  );
  return {
    verdict: doubted ? 'cannot be right' : flat ? 'undecided' : 'fits',
    latitudeSeen_deg: seen,
    slips: fitting
      .filter((slip) => !doubted || here - costAt(slip.latitude_deg) > LEAST_BETTER)
      .map((slip) => ({
        ...slip,
        offset_min: wrapped(offsetAt(slip.latitude_deg) + (slip.longitude_deg - claimed.longitude_deg) * 4),
        betterBy: here - costAt(slip.latitude_deg),
      })),
  };
}

/** Cost at the best offset, every two hours first and then to a quarter of an hour. */
function leastCost(days: FoldedDays, which: readonly number[]): number {
  const wide = FIRST_LOOK.filter((_, j) => j % 8 === 0);
  const first = columnSums(negativeLogLikelihood(days, which, wide), wide.length);
  const near = wide[leastIndex(first)]!;
  const close = [-60, -45, -30, -15, 0, 15, 30, 45, 60].map((minutes) => near + minutes);
  const second = columnSums(negativeLogLikelihood(days, which, close), close.length);
  return second[leastIndex(second)]! / VARIANCE_INFLATION;
}

function possibleSlips({
  latitude_deg: a,
  longitude_deg: o,
}: Place): (Place & { slip: PlaceSlip['slip'] })[] {
  return [
    { slip: 'sign of longitude', latitude_deg: a, longitude_deg: -o },
    { slip: 'sign of latitude', latitude_deg: -a, longitude_deg: o },
    { slip: 'both signs', latitude_deg: -a, longitude_deg: -o },
    { slip: 'swapped', latitude_deg: o, longitude_deg: a },
    { slip: 'swapped and sign wrong', latitude_deg: o, longitude_deg: -a },
    { slip: 'swapped and sign wrong', latitude_deg: -o, longitude_deg: a },
    { slip: 'swapped and sign wrong', latitude_deg: -o, longitude_deg: -a },
  ];
}

/**
 * Folded days as they would be at another place: solar time turned by the longitude, clear days and clearness
 * (dimensionless) of the other latitude. For asking whether the claimed place is the right one.
 *
 * in: days, as folded; from and to, claimed and other place, degrees, north and east positive
 * out: new columns for what changes, the same ones for what does not
 */
function foldAt(
  days: FoldedDays,
  from: { longitude_deg: number },
  to: { latitude_deg: number; longitude_deg: number },
): FoldedDays {
  const turn_min = (to.longitude_deg - from.longitude_deg) * 4 + 1440;
  const clearDays = days.declination_deg.map((declination) =>
    clearDay(to.latitude_deg, declination, days.step_min),
  );
  const means = clearDays.map((values) => mean(Array.from(values.subarray(1))));
  return {
    ...days,
    clearDays,
    clearMean_W_m2: means,
    phase_min: days.phase_min.map((phase) => (phase + turn_min) % 1440),
    clearness: days.clearness.map((value, i) => {
      const table = days.clearIndex[i]!;
      return Math.max(0.02, (value * days.clearMean_W_m2[table]!) / means[table]!);
    }),
  };
}

/**
 * Some of the folded days, copied into columns of their own (units as in FoldedDays).
 *
 * in: days; which, indices of the days wanted, in rising order
 * out: folded days holding only those
 */
function takeDays(days: FoldedDays, which: readonly number[]): FoldedDays {
  const samples: number[] = [];
  const dayFirst = new Uint32Array(which.length + 1);
  for (let d = 0; d < which.length; d++) {
    for (let i = days.dayFirst[which[d]!]!; i < days.dayFirst[which[d]! + 1]!; i++) samples.push(i);
    dayFirst[d + 1] = samples.length;
  }
  const pick = (column: Float64Array): Float64Array => Float64Array.from(samples, (i) => column[i]!);
  return {
    ...days,
    count: samples.length,
    phase_min: pick(days.phase_min),
    ghi_W_m2: pick(days.ghi_W_m2),
    logGhi: pick(days.logGhi),
    clearness: pick(days.clearness),
    clearIndex: Uint16Array.from(samples, (i) => days.clearIndex[i]!),
    follows: Uint8Array.from(samples, (i) => days.follows[i]!),
    dayFirst,
    day_ms: Float64Array.from(which, (d) => days.day_ms[d]!),
    equationOfTime_min: Float64Array.from(which, (d) => days.equationOfTime_min[d]!),
  };
}
