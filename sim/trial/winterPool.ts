import { setImmediate as nextTurn } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { cpus, pool } from 'workerpool';
import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type MadeBatch, MadeTrials, type WinterJob } from './MadeTrials.ts';
import type { WinterBasis } from './WinterMaker.ts';

/** All that another thread needs to run made winters: it loads the scenario by itself. */
export interface WinterSetup {
  /** Path of the scenario's file, and its name in messages. */
  path: string;
  file: string;
  basis: WinterBasis;
}

/** What another thread gives: errors lose their class on the way. */
export type WinterAnswer = { batch: MadeBatch } | { problems: readonly Problem[] };

/** Work on jobs that can be broken off. */
export interface JobsOptions {
  /** Threads beside this one; 0 runs all in this one. As many as the machine has cores unless stated. */
  threads?: number | undefined;
  /** Told when a job is done. */
  onDone?: (done: number, all: number) => void;
  /** Has the work told to stop; what is done then still comes. */
  onStop?: (stop: () => void) => void;
}

/** The bundle of the worker; the way there is the same from sim/ and from dist/shared/. */
const WORKER = fileURLToPath(new URL('../../dist/trial/winterWorker.js', import.meta.url));

/**
 * Runs jobs on all cores, the same results for any number of them.
 *
 * in: jobs; scenario, as `setup` names its file; setup; options
 * out: the batch of each job in their order; undefined for those that were broken off
 * throws: InputProblem as `MadeTrials`, and as `loadScenario` where the file is no longer what it was
 */
export async function runWinterJobs(
  jobs: readonly WinterJob[],
  scenario: Scenario,
  setup: WinterSetup,
  { threads, onDone, onStop }: JobsOptions = {},
): Promise<(MadeBatch | undefined)[]> {
  let stopped = false;
  let done = 0;
  const tell = () => onDone?.(++done, jobs.length);
  if (threads === 0 || jobs.length < 2) {
    onStop?.(() => {
      stopped = true;
    });
    const trials = new MadeTrials(scenario, setup.basis);
    const batches: (MadeBatch | undefined)[] = [];
    for (const job of jobs) {
      batches.push(stopped ? undefined : trials.run(job));
      tell();
      await nextTurn();
    }
    return batches;
  }
  const workers = pool(WORKER, {
    workerType: 'thread',
    workerThreadOpts: { workerData: setup },
    // This thread waits: every core is theirs.
    maxWorkers: threads ?? cpus,
    // Nothing is to be put away: Ctrl-C need not wait for the job in hand.
    workerTerminateTimeout: 1,
  });
  onStop?.(() => {
    stopped = true;
    void workers.terminate(true);
  });
  try {
    return await Promise.all(
      jobs.map(async (job) => {
        try {
          const answer: WinterAnswer = await workers.exec('run', [job]);
          if ('problems' in answer) throw new InputProblem(answer.problems);
          tell();
          return answer.batch;
        } catch (error) {
          if (stopped) return undefined;
          throw error;
        }
      }),
    );
  } finally {
    await workers.terminate(true);
  }
}
