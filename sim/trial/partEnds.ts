import type { Scenario } from '../scenario/Scenario.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { type LeanOutcome, LeanTrials, type Premises } from './LeanTrials.ts';
import type { SpotLights } from './SpotLights.ts';
import { concerns, trialAssumptions } from './trialAssumptions.ts';

/** A trial as its generic parts are assumed, and with all of them at the poor and at the good end of what is sold. */
export interface PartEnds {
  spot: string;
  lamp: string;
  assumed: LeanOutcome;
  /** Undefined where it has no generic part; null where no such lamp can be. */
  poor: LeanOutcome | null | undefined;
  good: LeanOutcome | null | undefined;
}

/**
 * The verdict of every trial of a scenario, and what it would be with the low and with the high values of its generic
 * parts, as if each were its poor or its good sibling of the library; nights alone.
 *
 * in: scenario; weather, as loadWeather gives it; lights of its spots, where they are known
 * out: spots in the order of the scenario, the lamps within each
 * throws: InputProblem as `runAll`
 */
export function partEnds(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  lights?: SpotLights,
): PartEnds[] {
  const lean = new LeanTrials(scenario, weather, lights);
  const generic = trialAssumptions(scenario, weather).filter(({ from }) => from === 'part');
  const trials = scenario.spots.flatMap((spot) =>
    scenario.lamps.map((lamp) => ({ spot, lamp, assumed: lean.asStated(spot, lamp) })),
  );
  const allAt = (end: 0 | 1) =>
    trials.map(({ spot, lamp }) => {
      const own = generic.filter((assumption) => concerns(assumption, spot, lamp));
      const at = own.reduce(
        (premises: Premises, one) => one.with(premises, one.ends[end]),
        lean.premises(spot, lamp),
      );
      return own.length === 0 ? undefined : (lean.outcome(at) ?? null);
    });
  const [poor, good] = [allAt(0), allAt(1)];
  return trials.map(({ spot, lamp, assumed }, k) => ({
    spot: spot.name,
    lamp: lamp.name,
    assumed,
    poor: poor[k],
    good: good[k],
  }));
}
