import { setImmediate as nextTurn } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { cpus, pool } from 'workerpool';
import { InputProblem, type Problem } from '../common/InputProblem.ts';

/** Work on jobs that can be broken off. */
export interface JobsOptions {
  /** Threads beside this one; 0 runs all in this one. As many as the machine has cores unless stated. */
  threads?: number | undefined;
  /** Told when a job is done. */
  onDone?: (done: number, all: number) => void;
  /** Has the work told to stop; what is done then still comes. */
  onStop?: (stop: () => void) => void;
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
  stopped = false;
  private readonly place: Workplace<Job, Result>;
  private readonly threads: number | undefined;
  private work: ((job: Job) => Result) | undefined;
  private workers: ReturnType<typeof pool> | undefined;

  /** in: place; threads, as in JobsOptions; onStop, as there */
  constructor(place: Workplace<Job, Result>, { threads, onStop }: Omit<JobsOptions, 'onDone'>) {
    this.place = place;
    this.threads = threads;
    onStop?.(() => {
      this.stopped = true;
      void this.close();
    });
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
  { onDone, ...options }: JobsOptions = {},
): Promise<(Result | undefined)[]> {
  const workers = new JobPool(place, options);
  let done = 0;
  try {
    return await workers.run(jobs, () => onDone?.(++done, jobs.length));
  } finally {
    await workers.close();
  }
}
