import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { scenarioOf } from '../scenario/parseScenario.ts';
import { jobRunner } from '../trial/jobPool.ts';
import { type LifeJob, type LifeSetup, LifeTrials } from './LifeTrials.ts';

// A thread of `scenarioLives`: runs lamps through the years.

const { source, premises }: LifeSetup = workerData;

const run = jobRunner(() => {
  const trials = new LifeTrials(scenarioOf(source), premises);
  return (job: LifeJob) => trials.run(job);
});

worker({ run });
