import { describeYear } from './describeYear.ts';
import { inventedYear, type YearFrame } from './inventedYear.ts';

/** Seeds looked at, from 1. */
const CANDIDATES = 400;

/** How far the chosen year may stray. */
export const BANDS = {
  /** Every month's light from its expected mean, relative. */
  month: 0.13,
  /** The year's light, relative. */
  year: 0.02,
  /** The darkest fortnight from the median of the candidates, relative. */
  fortnight: 0.1,
  /** Every month's temperature from the mean of the candidates. */
  temperature_degC: 2.5,
};

/** The seed, and what it was held against. */
export interface SeedChoice {
  seed: number;
  /** Median over the candidates of the darkest fortnight's mean. */
  medianFortnight_kWh_m2_day: number;
  /** Median over the candidates of the longest run of very dull days. */
  medianDullRun_days: number;
}

/**
 * The seed of the invented year: the first whose every month and whose year lie close to the expected means, whose
 * darkest fortnight is close to the median of all candidates, and whose longest run of very dull days is no shorter
 * than their median. So the year is an ordinary one by choice; it says nothing of how bad a bad winter gets.
 *
 * in: frame, from `yearFrame`
 * out: the seed, and the medians
 * throws: RangeError when no candidate will do
 */
export function chooseSeed(frame: YearFrame): SeedChoice {
  const candidates = Array.from({ length: CANDIDATES }, (_, i) =>
    describeYear(inventedYear(i + 1, frame), frame),
  );
  const fortnight = median(candidates.map((year) => year.darkestFortnight.mean_kWh_m2_day));
  const dullRun = median(candidates.map((year) => year.longestDullRun.days));
  const usual_degC = candidates[0]!.air_degC.map((_, month) =>
    mean(candidates.map((year) => year.air_degC[month]!)),
  );
  const index = candidates.findIndex(
    (year) =>
      year.ofExpected.every((ratio) => Math.abs(ratio - 1) <= BANDS.month) &&
      Math.abs(year.yearOfExpected - 1) <= BANDS.year &&
      Math.abs(year.darkestFortnight.mean_kWh_m2_day / fortnight - 1) <= BANDS.fortnight &&
      year.longestDullRun.days >= dullRun &&
      year.air_degC.every((t, month) => Math.abs(t - usual_degC[month]!) <= BANDS.temperature_degC),
  );
  if (index < 0) throw new RangeError(`none of the first ${CANDIDATES} seeds meets the rule`);
  return { seed: index + 1, medianFortnight_kWh_m2_day: fortnight, medianDullRun_days: dullRun };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.ceil(middle) - 1]! + sorted[Math.floor(middle)]!) / 2;
}
