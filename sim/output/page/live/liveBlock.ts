import type { LiveRun } from '../../../trial/live/LiveRun.ts';
import { bundled } from '../../program.ts';
import { packedPlain } from '../packedPlain.ts';
import { oneScript } from './oneScript.ts';

/** What a page carries to run its trials again, both packed. */
export interface LiveBlock {
  /** Of the worker, a script. */
  code: string;
  run: string;
}

let worker: string | undefined;

/** in: run, as `liveRunOf` gives it */
export function liveBlock(run: LiveRun): LiveBlock {
  worker ??= packedPlain(workerScript());
  return { code: worker, run: packedPlain(run) };
}

/** The script of the worker, with the licences of what is in it. */
export function workerScript(): string {
  const licences = bundled('page/scripts/liveWorker.licences.txt');
  return `/*\n${licences}*/\n${oneScript('page/scripts/liveWorker.js', bundled)}`;
}
