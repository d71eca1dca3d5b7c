import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { KeyValues } from '../scenario/uncertainValues.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { howToKnow, type WayToKnow } from './howToKnow.ts';
import { type LeanOutcome, LeanTrials } from './LeanTrials.ts';
import { namedTrials, type TrialNames } from './namedTrials.ts';
import { type AtEnds, concerns, type TrialAssumption, trialAssumptions } from './trialAssumptions.ts';

/** What one assumption does to the trials of a scenario, from one end of what it may be to the other. */
export interface MovedBy extends Pick<TrialAssumption, 'key' | 'from'> {
  /** Keys and values; the end at which more nights fail is the worse. */
  values: AtEnds<KeyValues>;
  /** Of all the trials together; trials that cannot be at an end count as they are. */
  failedNights: AtEnds<number>;
  short_h: AtEnds<number>;
  /** By trial; null where such a lamp cannot be. */
  trials: { spot: string; lamp: string; failedNights: AtEnds<number | null> }[];
  know: WayToKnow | undefined;
}

/** How the verdict of a scenario hangs on what it assumes. */
export interface Sensitivity {
  scenario: string;
  trials: { spot: string; lamp: string; nights: number; failedNights: number; short_h: number }[];
  /** Largest move first: of failed nights, then of short hours. */
  assumptions: MovedBy[];
}

export interface SensitivityOptions extends TrialNames {
  /** Called after every assumption. */
  onTried?: (done: number, all: number) => void;
}

interface Found {
  spot: ScenarioSpot;
  lamp: ScenarioLamp;
  outcome: LeanOutcome;
}

/**
 * Which assumptions move the verdict of a scenario most: each run alone from one end of what it may be to the other, all
 * else as it is, nights alone.
 *
 * in: scenario; weather, as loadWeather gives it; options
 * out: every assumption that applies, ordered by how far it moves the failed nights of the trials together
 * throws: InputProblem for files that cannot be read, or where the trials as they are cannot be run
 * valid: one at a time; what two do together may be more than their sum
 */
export function sensitivity(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  { onTried, ...names }: SensitivityOptions = {},
): Sensitivity {
  const lean = new LeanTrials(scenario, weather);
  const trials = namedTrials(scenario, names).map(
    ({ spot, lamp }): Found => ({ spot, lamp, outcome: lean.asStated(spot, lamp) }),
  );
  const all = trialAssumptions(scenario, weather).filter((assumption) =>
    trials.some(({ spot, lamp }) => concerns(assumption, spot, lamp)),
  );
  const moved = all.map((assumption, done) => {
    const found = movedBy(assumption, trials, lean);
    onTried?.(done + 1, all.length);
    return found;
  });
  const reach = ({ worse, assumed, better }: AtEnds<number>) =>
    Math.max(worse, assumed, better) - Math.min(worse, assumed, better);
  return {
    scenario: scenario.name,
    trials: trials.map(({ spot, lamp, outcome }) => ({ spot: spot.name, lamp: lamp.name, ...outcome })),
    assumptions: moved.sort(
      (one, other) =>
        reach(other.failedNights) - reach(one.failedNights) || reach(other.short_h) - reach(one.short_h),
    ),
  };
}

/** The trials at one value of an assumption. */
interface Run {
  keys: KeyValues;
  outcomes: (LeanOutcome | undefined)[];
  failedNights: number;
  short_h: number;
}

function movedBy(assumption: TrialAssumption, trials: readonly Found[], lean: LeanTrials): MovedBy {
  const { key, from, assumed, ends } = assumption;
  const runOf = (keys: KeyValues): Run => {
    const same = JSON.stringify(keys) === JSON.stringify(assumed);
    const outcomes = trials.map(({ spot, lamp, outcome }) => {
      if (same || !concerns(assumption, spot, lamp)) return outcome;
      return lean.outcome(assumption.with(lean.premises(spot, lamp), keys));
    });
    const sum = (of: 'failedNights' | 'short_h') =>
      outcomes.reduce((total, outcome, k) => total + (outcome ?? trials[k]!.outcome)[of], 0);
    return { keys, outcomes, failedNights: sum('failedNights'), short_h: sum('short_h') };
  };
  const [worse, better] = ends
    .map(runOf)
    .sort((one, other) => other.failedNights - one.failedNights || other.short_h - one.short_h);
  const runs: AtEnds<Run> = { worse: worse!, assumed: runOf(assumed), better: better! };
  const atEnds = <Value>(of: (run: Run) => Value): AtEnds<Value> => ({
    worse: of(runs.worse),
    assumed: of(runs.assumed),
    better: of(runs.better),
  });
  const values = atEnds(({ keys }) => keys);
  const first = trials.find(({ spot, lamp }) => concerns(assumption, spot, lamp))!;
  const premises = lean.premises(first.spot, first.lamp);
  return {
    key,
    from,
    values,
    failedNights: atEnds(({ failedNights }) => failedNights),
    short_h: atEnds(({ short_h }) => short_h),
    trials: trials.map(({ spot, lamp: { name } }, k) => ({
      spot: spot.name,
      lamp: name,
      failedNights: atEnds(({ outcomes }) => outcomes[k]?.failedNights ?? null),
    })),
    know: howToKnow(
      key,
      atEnds(({ keys }) => assumption.with(premises, keys).lamp),
    ),
  };
}
