import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { scenarioOf } from '../scenario/parseScenario.ts';
import { jobRunner } from './jobPool.ts';
import { MadeTrials, type WinterJob, type WinterSetup } from './MadeTrials.ts';

// A thread of `scenarioOdds`: makes winters and runs a scenario's trials through them.

const { source, basis }: WinterSetup = workerData;

const run = jobRunner(() => {
  const trials = new MadeTrials(scenarioOf(source), basis);
  return (job: WinterJob) => trials.run(job);
});

worker({ run });
