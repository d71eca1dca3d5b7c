import { setImmediate as nextTurn } from 'node:timers/promises';
import { createContext, Script } from 'node:vm';
import type { World } from './Io.ts';

const SANDBOX: { work?: () => void } = createContext({});
const WORK = new Script('work()');

/**
 * Ctrl-C while there is something to be saved: from the making of this one it ends work, and no longer the program. Once
 * it came, a second one ends the program at once.
 */
export class Interruption {
  private came = false;
  private readonly letGo: () => void;
  private readonly stops: (() => void)[] = [];

  constructor({ onInterrupt }: Pick<World, 'onInterrupt'>) {
    this.letGo = onInterrupt(() => {
      this.came = true;
      for (const stop of this.stops) stop();
    });
  }

  /** Has work in other threads told to stop when Ctrl-C comes. in: stop, called at once where it came already */
  stopping(stop: () => void): void {
    this.stops.push(stop);
    if (this.came) stop();
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
    return this.came;
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
      this.came = true;
      this.letGo();
    }
    return made.value;
  }
}
