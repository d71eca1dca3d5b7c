import type { JobsOptions } from '../trial/jobPool.ts';
import { type Io, withProgress } from './Io.ts';

/**
 * Work on jobs, counted on stderr, that Ctrl-C ends with what is there.
 *
 * in: io; word, what is counted; work, given what tells of it and stops it
 * out: what comes of it, and whether Ctrl-C came
 */
export async function stoppable<Result>(
  io: Io,
  word: string,
  work: (options: JobsOptions) => Promise<Result>,
): Promise<{ result: Result; interrupted: boolean }> {
  let interrupted = false;
  let letGo = () => {};
  try {
    const result = await withProgress(io, word, (show) =>
      work({
        onDone: show,
        onStop: (stop) => {
          letGo();
          letGo = io.onInterrupt(() => {
            interrupted = true;
            stop();
          });
        },
      }),
    );
    return { result, interrupted };
  } finally {
    letGo();
  }
}
