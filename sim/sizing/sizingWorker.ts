import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { scenarioOf } from '../scenario/parseScenario.ts';
import { jobRunner } from '../trial/jobPool.ts';
import { DesignSearch, type SearchJob } from './DesignSearch.ts';
import { designSpace } from './DesignSpace.ts';
import type { SizingSetup } from './sizeLamp.ts';

// A thread of `sizeLamp`: looks at designs.

const { source, wish, weather }: SizingSetup = workerData;

const run = jobRunner(() => {
  const search = new DesignSearch(designSpace(scenarioOf(source), wish), weather);
  return (job: SearchJob) => search.run(job);
});

worker({ run });
