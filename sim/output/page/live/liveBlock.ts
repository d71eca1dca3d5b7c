import type { LiveRun } from '../../../trial/live/LiveRun.ts';
import { bundled } from '../../program.ts';
import { packedPlain } from '../packedPlain.ts';

/** What a page carries to run its trials again, both packed. */
export interface LiveBlock {
  /** Of the worker, a script. */
  code: string;
  run: string;
}

/** in: run, as `liveRunOf` gives it */
export function liveBlock(run: LiveRun): LiveBlock {
  return { code: bundled('page/scripts/liveWorker.txt'), run: packedPlain(run) };
}
