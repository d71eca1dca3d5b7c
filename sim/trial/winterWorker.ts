import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { InputProblem } from '../common/InputProblem.ts';
import { loadScenario } from '../scenario/loadScenario.ts';
import { MadeTrials, type WinterJob } from './MadeTrials.ts';
import type { WinterAnswer, WinterSetup } from './winterPool.ts';

// A thread of `runWinterJobs`: makes winters and runs a scenario's trials through them.

const { path, file, basis }: WinterSetup = workerData;
let trials: MadeTrials | undefined;

function run(job: WinterJob): WinterAnswer {
  try {
    trials ??= new MadeTrials(loadScenario(path, file), basis);
    return { batch: trials.run(job) };
  } catch (error) {
    if (error instanceof InputProblem) return { problems: error.problems };
    throw error;
  }
}

worker({ run });
