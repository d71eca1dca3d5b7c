import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { jobRunner } from '../trial/jobPool.ts';
import { DesignSearch, type SearchJob } from './DesignSearch.ts';

// A thread of `sizeLamps`: looks at designs.

const run = jobRunner(() => {
  const search = new DesignSearch(workerData);
  return (job: SearchJob) => search.run(job);
});

worker({ run });
