import { setImmediate as nextTurn } from 'node:timers/promises';
import { createContext, Script } from 'node:vm';
import type { WorkOptions } from '../trial/jobPool.ts';
import { type Io, withProgress } from './Io.ts';

/** What it needs to hear, and to tell how far work is. */
type WatchedIo = Pick<Io, 'onInterrupt' | 'progress' | 'clock_s'>;

const SANDBOX: { work?: () => void } = createContext({});
const WORK = new Script('work()');

/**
 * Ctrl-C while there is something to be saved: from the making of this one it ends work, and no longer the program. Once
 * it came, a second one ends the program at once.
 */
export class Interruption {
  private readonly io: WatchedIo;
  private readonly letGo: () => void;
  private readonly controller = new AbortController();

  constructor(io: WatchedIo) {
    this.io = io;
    this.letGo = io.onInterrupt(() => this.controller.abort());
  }

  /**
   * Does work that Ctrl-C ends with what is there, and counts it on stderr.
   *
   * in: word, what is counted; work
   * throws: what it throws
   */
  async ending<Made>(word: string, work: (options: WorkOptions) => Promise<Made>): Promise<Made> {
    const { signal } = this.controller;
    try {
      return await withProgress(this.io, word, (onProgress) => work({ signal, onProgress }));
    } catch (error) {
      this.letGo();
      throw error;
    }
  }

  /** What work gives, time after time, until it gives nothing or Ctrl-C breaks it off; what Ctrl-C finds given is still given. */
  async *each<Value>(work: () => Value | undefined): AsyncGenerator<Value, void> {
    for (;;) {
      const value = this.breakable(work);
      if (value === undefined) return;
      yield value;
      if (await this.isHeard()) return;
    }
  }

  /** Whether Ctrl-C came up to now. */
  private async isHeard(): Promise<boolean> {
    // Outside of work that can be broken off a signal is heard between two turns of the event loop only.
    await nextTurn();
    return this.controller.signal.aborted;
  }

  /** From here on Ctrl-C ends the program again. out: whether one came up to now */
  async end(): Promise<boolean> {
    const came = await this.isHeard();
    this.letGo();
    return came;
  }

  /**
   * Does work that Ctrl-C breaks off wherever it stands, so that nothing in it need ask whether one came.
   *
   * in: work; what it has done up to any instant must be of use
   * out: what it gives; undefined where it was broken off
   * throws: what it throws
   */
  breakable<Value>(work: () => Value): Value | undefined {
    const made: { value?: Value } = {};
    SANDBOX.work = () => {
      made.value = work();
    };
    try {
      WORK.runInContext(SANDBOX, { breakOnSigint: true, displayErrors: false });
    } catch (error) {
      if ((error as { code?: unknown }).code !== 'ERR_SCRIPT_EXECUTION_INTERRUPTED') throw error;
      this.controller.abort();
      this.letGo();
    }
    return made.value;
  }
}
