import { InputProblem } from '../common/InputProblem.ts';
import { sourceOf } from '../scenario/parseScenario.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type JobsOptions, runJobs } from './jobPool.ts';
import { MadeTrials, type WinterJob, type WinterSetup } from './MadeTrials.ts';
import { OddsJobs, type OddsWishes, type ScenarioOdds } from './OddsJobs.ts';
import { type WinterBasis, winterMaker } from './WinterMaker.ts';

/**
 * How likely a winter is to keep the promise, by winters that have not happened.
 *
 * in: scenario; basis, what they are made from; wishes; options
 * out: odds by trial, the same for any number of threads; undefined where it was stopped before a winter was run
 * throws: InputProblem as `winterMaker`; SCENARIO_CONFLICT where the light was logged on a cell
 * valid: what winters on file can tell; a climate that changes is not foreseen
 * source: Efron1979 for learning again from drawn winters, Wilson1927
 */
export async function scenarioOdds(
  scenario: Scenario,
  basis: WinterBasis,
  wishes: OddsWishes,
  options: JobsOptions = {},
): Promise<ScenarioOdds | undefined> {
  refuseLogged(scenario);
  const pairs = scenario.spots.flatMap((spot) => scenario.lamps.map((lamp) => ({ spot, lamp })));
  const odds = new OddsJobs(winterMaker(basis), wishes, pairs.length);
  const here = () => {
    const trials = new MadeTrials(scenario, basis);
    return (job: WinterJob) => trials.run(job);
  };
  const setup: WinterSetup = { source: sourceOf(scenario), basis };
  const batches = await runJobs(odds.jobs, { worker: 'trial/winterWorker', setup, here }, options);
  return odds.of(pairs, batches, scenario.seed);
}

/**
 * Light that was logged on a cell is that of its own days, whatever winter is made.
 *
 * in: scenario
 * throws: SCENARIO_CONFLICT where a spot of it has such light
 */
export function refuseLogged({ file, spots }: Scenario): void {
  const logged = spots.find(({ params }) => params.loggedLight !== undefined);
  if (logged === undefined) return;
  throw new InputProblem({
    code: 'SCENARIO_CONFLICT',
    file,
    field: `spots.${logged.name}.light_on_cell`,
    got: 'light that was logged on the cell, with --winters',
    expected: 'light by weather and what stands around, which other winters change',
    fix: 'describe the spot by its horizon, or by a log of its share of the light, or leave --winters away.',
  });
}
