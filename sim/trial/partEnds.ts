import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
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
  const atEnd = genericEnds(scenario);
  const trials = scenario.spots.flatMap((spot) =>
    scenario.lamps.map((lamp) => ({ spot, lamp, assumed: lean.asStated(spot, lamp) })),
  );
  const allAt = (end: 0 | 1) =>
    trials.map(({ spot, lamp }) => {
      const premises = atEnd(end, lean.premises(spot, lamp), spot, lamp);
      return premises && (lean.outcome(premises) ?? null);
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

/**
 * Makes the premises of trials with all of their generic parts at one end of what is sold: 0 is the poor one.
 *
 * in: scenario
 * out: undefined of a trial without a generic part
 */
export function genericEnds(scenario: Scenario) {
  // What is assumed of the weather is no part.
  const generic = trialAssumptions(scenario, undefined).filter(({ from }) => from === 'part');
  return (end: 0 | 1, stated: Premises, spot: ScenarioSpot, lamp: ScenarioLamp): Premises | undefined => {
    const own = generic.filter((assumption) => concerns(assumption, spot, lamp));
    return own.length === 0
      ? undefined
      : own.reduce((premises, one) => one.with(premises, one.ends[end]), stated);
  };
}
