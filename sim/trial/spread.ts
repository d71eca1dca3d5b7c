import { median, probit, sampleCorrelation } from 'simple-statistics';
import type { Scenario } from '../scenario/Scenario.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { type LampSample, lampSamples } from './lampSamples.ts';
import { soundNights } from './runTrial.ts';
import type { FollowedParameter, NightTrial, OutcomeSpread, Trial } from './Trial.ts';

interface Outcome {
  sizes: LampSample['sizes'];
  verdict: Trial['statistics']['verdict'];
  failedNights: number;
  short_h: number;
}

/** With 20, chance chose the parameter that is named three times in twelve on the demo; with 40, once. */
const SAMPLES = 40;
/** A parameter is named where chance would show as much of any of them in one case of twenty. */
const RARE = 0.05;

/**
 * Gives trials of a scenario their outcome over what the bench readings of their lamp leave open: each run again, under
 * the same weather, with lamps sampled from the fits of its readings.
 *
 * in: scenario, of the trials; samples, lamps sampled for each
 * out: takes a trial, as trialsOf gives it, and gives it with its spread; the same samples for a lamp in every spot
 * valid: says what the parts may be, not what the weather may do
 * source: Spearman1904, Dunn1961 (one rare level shared by all parameters; normal, of variance 1 / (samples - 1))
 */
export function spreader(scenario: Scenario, samples = SAMPLES): <Ran extends Trial>(trial: Ran) => Ran {
  const { site, promise, start, seed } = scenario;
  const terms = { site, promise, start, seed };
  const lamps = new Map(scenario.lamps.map((lamp) => [lamp.name, lampSamples(lamp, seed, samples)]));
  return (trial) => {
    const { spot, lamp, light } = trial;
    const sampled = lamps.get(lamp)!;
    const outcomes = sampled.flatMap(({ settled, sizes }): Outcome[] => {
      const again = settled && soundNights(settled, light, { ...terms, spot, lamp });
      return again === undefined ? [] : [{ sizes, ...outcomeOf(again) }];
    });
    return { ...trial, spread: spreadOf(trial, sampled.length, outcomes) };
  };
}

function outcomeOf({ statistics }: NightTrial): Omit<Outcome, 'sizes'> {
  const { failedNights, short_h } = overWinters(statistics.winters);
  return { verdict: statistics.verdict, failedNights, short_h };
}

function spreadOf(trial: Trial, samples: number, outcomes: readonly Outcome[]): OutcomeSpread {
  const nights = outcomes.map(({ failedNights }) => failedNights);
  const none = nights.length === 0;
  const parameters = followed(outcomes);
  const first = parameters[0];
  const least = probit(1 - RARE / 2 / parameters.length) / Math.sqrt(outcomes.length - 1);
  return {
    samples,
    ran: outcomes.length,
    verdictStands: outcomes.filter(({ verdict }) => verdict === trial.statistics.verdict).length,
    failedNights: {
      lowest: none ? Number.NaN : Math.min(...nights),
      median: none ? Number.NaN : median(nights),
      highest: none ? Number.NaN : Math.max(...nights),
    },
    parameters,
    ...(first !== undefined && Math.abs(first.rankCorrelation) >= least ? { mostly: first } : {}),
  };
}

function followed(outcomes: readonly Outcome[]): FollowedParameter[] {
  const short_h = outcomes.map((outcome) => outcome.short_h);
  const closeness = ({ rankCorrelation: found }: FollowedParameter) =>
    Number.isNaN(found) ? -1 : Math.abs(found);
  return Object.keys(outcomes[0]?.sizes ?? {})
    .map((key) => ({
      key,
      rankCorrelation: rankCorrelation(
        outcomes.map(({ sizes }) => sizes[key]!),
        short_h,
      ),
    }))
    .sort((one, other) => closeness(other) - closeness(one));
}

/**
 * Spearman's rank correlation of two columns, -1 to 1; equal values share the mean of their ranks.
 *
 * in: left and right, as long as each other
 * NaN when: fewer than three pairs, or all values of a column are equal
 * source: Spearman1904
 * @example rankCorrelation([1, 2, 3, 4], [10, 20, 20, 40]); // => 0.948683
 */
export function rankCorrelation(left: readonly number[], right: readonly number[]): number {
  if (left.length < 3 || new Set(left).size < 2 || new Set(right).size < 2) return Number.NaN;
  return sampleCorrelation(ranks(left), ranks(right));
}

function ranks(values: readonly number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const equal = values.filter((other) => other === value).length;
    return below + (equal + 1) / 2;
  });
}
