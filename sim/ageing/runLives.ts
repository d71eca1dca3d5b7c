import { sourceOf } from '../scenario/parseScenario.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { type JobsOptions, runJobs } from '../trial/jobPool.ts';
import { type LawLife, type LifeJob, type LifePremises, type LifeSetup, LifeTrials } from './LifeTrials.ts';

/** So few lives are run sooner than other threads have begun. */
const FEW = 6;

/**
 * Runs lives on all cores, the same results for any number of them.
 *
 * in: scenario; premises; jobs; options
 * out: of each job in their order; undefined for those that were broken off
 * throws: InputProblem as `LifeTrials`
 */
export function runLives(
  scenario: Scenario,
  premises: LifePremises,
  jobs: readonly LifeJob[],
  options: JobsOptions = {},
): Promise<(LawLife | undefined)[]> {
  const setup: LifeSetup = { source: sourceOf(scenario), premises: handedOver(premises) };
  const here = () => {
    const trials = new LifeTrials(scenario, premises);
    return (job: LifeJob) => trials.run(job);
  };
  const some = [...premises.lights.values()][0]?.length === 1 && jobs.length <= FEW ? { threads: 0 } : {};
  return runJobs(jobs, { worker: 'ageing/lifeWorker', setup, here }, { ...some, ...options });
}

/** Premises for another thread: a place holds laws, which do not pass, and no run asks for it. */
function handedOver({ lights, ...rest }: LifePremises): LifePremises {
  const bare = ([name, all]: [string, readonly SpotLight[]]) =>
    [name, all.map(({ place, ...light }) => light) as [SpotLight, ...SpotLight[]]] as const;
  return { ...rest, lights: new Map([...lights].map(bare)) };
}
