import { workerData } from 'node:worker_threads';
import { worker } from 'workerpool';
import { scenarioOf } from '../../scenario/parseScenario.ts';
import { jobRunner } from '../../trial/jobPool.ts';
import { spacesOf } from '../sizeScenario.ts';
import { MadeDesigns, type MadeDesignsJob } from './MadeDesigns.ts';
import type { LikelySetup } from './sizeByWinters.ts';

// A thread of `sizeByWinters`: looks at designs in made winters.

const { source, basis, wish }: LikelySetup = workerData;

const run = jobRunner(() => {
  const designs = new MadeDesigns(spacesOf(scenarioOf(source), wish), basis);
  return (job: MadeDesignsJob) => designs.run(job);
});

worker({ run });
