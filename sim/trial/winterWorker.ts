import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { loadScenario } from '../scenario/loadScenario.ts';
import { MadeTrials, type WinterJob } from './MadeTrials.ts';
import type { WinterSetup } from './winterPool.ts';

// A thread of `runWinterJobs`: makes winters and runs a scenario's trials through them.

const { path, file, basis }: WinterSetup = workerData;
const trials = new MadeTrials(loadScenario(path, file), basis);

worker({ run: (job: WinterJob) => trials.run(job) });
