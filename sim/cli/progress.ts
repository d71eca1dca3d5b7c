import type { Io } from './Io.ts';

export interface Progress {
  /** Says that so many of all are done. */
  show: (done: number, all: number) => void;
  /** Wipes the line. */
  end: () => void;
}

/**
 * One line on stderr that counts up, only where a person watches.
 *
 * in: io; word, what is counted
 * out: the line's two deeds
 */
export function progress(io: Io, word: string): Progress {
  if (!io.isTTY.stderr) return { show: () => {}, end: () => {} };
  return {
    show: (done, all) => io.stderr(`\r${word} ${done} of ${all} `),
    end: () => io.stderr('\r\u001b[K'),
  };
}
