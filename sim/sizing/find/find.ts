import type { Scenario } from '../../scenario/Scenario.ts';
import { LeanTrials } from '../../trial/LeanTrials.ts';
import { namedTrials, type TrialNames } from '../../trial/namedTrials.ts';
import { placedIn } from '../../trial/runAll.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { FindGrounds } from './answerOf.ts';
import type { FindWord, Found } from './Found.ts';
import { findCapacitance } from './findCapacitance.ts';
import { findInductor } from './findInductor.ts';
import { findLight } from './findLight.ts';
import { findPromise } from './findPromise.ts';
import { findShade } from './findShade.ts';

export interface FindOptions extends TrialNames {
  /** For how long an inductor is to keep the lamp lit, hours; as promised unless given. */
  lit_h?: number | undefined;
  /** Called after every trial. */
  onFound?: (done: number, all: number) => void;
}

type Finder = (grounds: FindGrounds, lit_h?: number) => Found;

const FINDERS: Record<FindWord, Finder> = {
  capacitance: findCapacitance,
  promise: findPromise,
  shade: findShade,
  light: findLight,
  inductor: findInductor,
};

/**
 * The answer to a single question for every lamp in every spot, by a search over runs of the whole record.
 *
 * in: word, the question; scenario; weather, as loadWeather gives it; options
 * out: spots in the order of the scenario, the lamps within each
 * throws: InputProblem where a lamp or spot cannot be asked that, or cannot be run as it is stated
 */
export function find(
  word: FindWord,
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  { lit_h, onFound, ...names }: FindOptions = {},
): Found[] {
  const lean = new LeanTrials(scenario, weather);
  const trials = namedTrials(scenario, names).map((named): FindGrounds => ({ scenario, lean, ...named }));
  return trials.map((grounds, done) => {
    const found = placedIn(scenario, () => {
      // Says what is wrong with a lamp that cannot be run at all, before it is tried otherwise.
      lean.asStated(grounds.spot, grounds.lamp);
      return FINDERS[word](grounds, lit_h);
    });
    onFound?.(done + 1, trials.length);
    return found;
  });
}
