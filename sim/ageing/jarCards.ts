import type { Scenario } from '../scenario/Scenario.ts';
import { placedIn } from '../trial/runAll.ts';
import { type JarCard, jarCard } from './JarCard.ts';
import type { LifeWeather } from './lifeWeather.ts';
import type { TrialLife } from './ScenarioLives.ts';

/**
 * The cards for the jars of a scenario's lamps, one a trial, with what their lives let expect.
 *
 * in: scenario; trials, their lives; weather that they were run through, of which the first year or winter is read
 * throws: InputProblem as `runTrial`
 */
export function jarCards(
  scenario: Scenario,
  trials: readonly TrialLife[],
  { lights, start }: Pick<LifeWeather, 'lights' | 'start'>,
): JarCard[] {
  const { site, promise, seed, spots, lamps } = scenario;
  return trials.map((trial) => {
    const lamp = lamps.find(({ name }) => name === trial.lamp)!;
    const spot = spots.find(({ name }) => name === trial.spot)!;
    const terms = { spot: spot.name, lamp: lamp.name, site, promise, start, seed };
    return placedIn(scenario, () => jarCard(lamp, spot, lights.get(spot.name)![0], terms, trial));
  });
}
