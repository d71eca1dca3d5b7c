import { setImmediate as nextTurn } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { cpus, pool } from 'workerpool';
import { InputProblem, type Problem } from '../common/InputProblem.ts';

/** Work that takes long. */
export interface WorkOptions {
  /** Ends the work where it is aborted; what is complete by then is still given, marked as a part. */
  signal?: AbortSignal | undefined;
  /** Told how much of how much is done. */
  onProgress?: ((done: number, all: number) => void) | undefined;
}

/** Work that is shared among threads. */
export interface JobsOptions extends WorkOptions {
  /** Threads beside this one; 0 runs all in this one. As many as the machine has cores unless stated. */
  threads?: number | undefined;
}

/** Where jobs are done: in this thread, or in others, which load by themselves what does not pass between threads. */
export interface Workplace<Job, Result> {
  /** The bundle of the worker below dist/, whose `run` is made by `jobRunner`. */
  worker: string;
  /** All that it needs, as its `workerData`. */
  setup: unknown;
  /** Makes what does a job in this thread. */
  here: () => (job: Job) => Result;
}

/** What another thread gives: errors lose their class on the way. */
type Answer<Result> = { result: Result } | { problems: readonly Problem[] };

/**
 * What a worker registers as `run`: does a job, with what is made for the first one.
 *
 * in: make, makes what does a job; where it throws InputProblem, so does the pool
 */
export function jobRunner<Job, Result>(make: () => (job: Job) => Result) {
  let work: ((job: Job) => Result) | undefined;
  return (job: Job): Answer<Result> => {
    try {
      work ??= make();
      return { result: work(job) };
    } catch (error) {
      if (error instanceof InputProblem) return { problems: error.problems };
      throw error;
    }
  };
}

/** Jobs done on all cores, the same results for any number of them; `close` it in the end. */
export class JobPool<Job, Result> {
  private readonly place: Workplace<Job, Result>;
  private readonly threads: number | undefined;
  private readonly signal: AbortSignal | undefined;
  private readonly stop = () => void this.workers?.terminate(true);
  private work: ((job: Job) => Result) | undefined;
  private workers: ReturnType<typeof pool> | undefined;

  /** in: place; threads and signal, as in JobsOptions */
  constructor(place: Workplace<Job, Result>, { threads, signal }: Omit<JobsOptions, 'onProgress'>) {
    this.place = place;
    this.threads = threads;
    this.signal = signal;
    signal?.addEventListener('abort', this.stop);
  }

  get stopped(): boolean {
    return this.signal?.aborted === true;
  }

  /**
   * in: jobs; onDone, told of each
   * out: the result of each job in their order; undefined for those that were broken off
   * throws: InputProblem as the work does
   */
  run(jobs: readonly Job[], onDone: () => void = () => {}): Promise<(Result | undefined)[]> {
    const alone = this.threads === 0 || (jobs.length < 2 && this.workers === undefined);
    return alone ? this.runHere(jobs, onDone) : this.runThere(jobs, onDone);
  }

  async close(): Promise<void> {
    this.signal?.removeEventListener('abort', this.stop);
    await this.workers?.terminate(true);
  }

  private async runHere(jobs: readonly Job[], onDone: () => void): Promise<(Result | undefined)[]> {
    const results: (Result | undefined)[] = [];
    for (const job of jobs) {
      if (this.stopped) results.push(undefined);
      else {
        this.work ??= this.place.here();
        results.push(this.work(job));
        onDone();
      }
      await nextTurn();
    }
    return results;
  }

  private runThere(jobs: readonly Job[], onDone: () => void): Promise<(Result | undefined)[]> {
    const workers = this.workersOf();
    return Promise.all(
      jobs.map(async (job) => {
        if (this.stopped) return undefined;
        try {
          const answer: Answer<Result> = await workers.exec('run', [job]);
          if ('problems' in answer) throw new InputProblem(answer.problems);
          onDone();
          return answer.result;
        } catch (error) {
          if (this.stopped) return undefined;
          throw error;
        }
      }),
    );
  }

  private workersOf(): ReturnType<typeof pool> {
    const { worker, setup } = this.place;
    // The way there is the same from sim/ and from dist/shared/.
    const bundle = fileURLToPath(new URL(`../../dist/${worker}.js`, import.meta.url));
    this.workers ??= pool(bundle, {
      workerType: 'thread',
      workerThreadOpts: { workerData: setup },
      // This thread waits: every core is theirs.
      maxWorkers: this.threads ?? cpus,
      // Nothing is to be put away: Ctrl-C need not wait for the job in hand.
      workerTerminateTimeout: 1,
    });
    return this.workers;
  }
}

/**
 * Runs jobs once.
 *
 * in: jobs; place; options
 * out, throws: as `JobPool.run`
 */
export async function runJobs<Job, Result>(
  jobs: readonly Job[],
  place: Workplace<Job, Result>,
  { onProgress, ...options }: JobsOptions = {},
): Promise<(Result | undefined)[]> {
  const workers = new JobPool(place, options);
  let done = 0;
  try {
    return await workers.run(jobs, () => onProgress?.(++done, jobs.length));
  } finally {
    await workers.close();
  }
}
