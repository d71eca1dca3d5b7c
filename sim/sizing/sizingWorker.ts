import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { loadScenario } from '../scenario/loadScenario.ts';
import { jobRunner } from '../trial/jobPool.ts';
import { DesignSearch, type SearchJob } from './DesignSearch.ts';
import { designSpace } from './DesignSpace.ts';
import type { SizingSetup } from './sizeLamp.ts';

// A thread of `sizeLamp`: looks at designs.

const { path, file, folder, wish, weather }: SizingSetup = workerData;

const run = jobRunner(() => {
  const search = new DesignSearch(designSpace(loadScenario(path, file, folder), wish), weather);
  return (job: SearchJob) => search.run(job);
});

worker({ run });
