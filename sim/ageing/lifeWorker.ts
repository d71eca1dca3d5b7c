import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { loadScenario } from '../scenario/loadScenario.ts';
import { jobRunner } from '../trial/jobPool.ts';
import { type LifeJob, type LifeSetup, LifeTrials } from './LifeTrials.ts';

// A thread of `scenarioLives`: runs lamps through the years.

const { path, file, folder, premises }: LifeSetup = workerData;

const run = jobRunner(() => {
  const trials = new LifeTrials(loadScenario(path, file, folder), premises);
  return (job: LifeJob) => trials.run(job);
});

worker({ run });
