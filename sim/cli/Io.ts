import { isAbsolute, join } from 'node:path';
import { InputProblem } from '../common/InputProblem.ts';

/** All that a command may touch of the world outside, so that tests can stand in for it. */
export interface Io {
  /** Results. */
  stdout: (text: string) => void;
  /** Talk, problems, progress. */
  stderr: (text: string) => void;
  /** Whether a person watches. */
  isTTY: { stdout: boolean; stderr: boolean };
  /** Has the next Ctrl-C told to `heard`, and not end the program; the one after it, and any once this is let go, does. */
  onInterrupt: (heard: () => void) => () => void;
  env: Readonly<Record<string, string | undefined>>;
  /** Folder that relative paths start from; '' is the process's own. */
  cwd: string;
}

/** What the command line answers to the shell. */
export const EXIT = {
  /** Ran, whatever the verdict. */
  ran: 0,
  /** A defect, the disk, or a balance that does not close. */
  failed: 1,
  /** Bad usage or bad input. */
  badInput: 2,
  /** Ran, a promise is broken, and --must-keep was given. */
  promiseBroken: 3,
  interrupted: 130,
} as const;

/**
 * A path as the file system needs it, as near as can be to what was typed.
 *
 * in: io; path, as typed
 * out: the path, from where the user stands
 * @example pathFrom({ cwd: 'home' }, 'garden.yaml'); // => 'home/garden.yaml'
 */
export function pathFrom({ cwd }: Io, path: string): string {
  return cwd === '' || isAbsolute(path) ? path : join(cwd, path);
}

/**
 * Whether results may be coloured: on a terminal, and where NO_COLOR is not set to anything.
 *
 * in: io
 * out: true or false
 */
export function takesColour({ env, isTTY }: Io): boolean {
  return isTTY.stdout && (env.NO_COLOR ?? '') === '' && env.TERM !== 'dumb';
}

/**
 * Does work while one line on stderr counts up, only where a person watches.
 *
 * in: io; word, what is counted; work, which says how far it is
 * out: what comes of the work; the line is wiped
 */
export async function withProgress<Result>(
  io: Io,
  word: string,
  work: (show: (done: number, all: number) => void) => Result | Promise<Result>,
): Promise<Result> {
  if (!io.isTTY.stderr) return work(() => {});
  try {
    return await work((done, all) => io.stderr(`\r${word} ${done} of ${all} `));
  } finally {
    io.stderr('\r\u001b[K');
  }
}

/**
 * Says what went wrong, on stderr: every problem of an input; one line for anything else, with the stack only where
 * the environment has LONGNIGHT_TRACE=1.
 *
 * in: error, as caught; io
 * out: exit code
 */
export function answerToError(error: unknown, io: Io): number {
  if (error instanceof InputProblem) {
    io.stderr(`${error.message}\n`);
    return EXIT.badInput;
  }
  const message = error instanceof Error ? error.message : String(error);
  const [line = ''] = message.split('\n', 1);
  io.stderr(`longnight failed: ${line}${isOfTheDisk(error) ? '' : '; this is a defect'}\n`);
  if (io.env.LONGNIGHT_TRACE === '1' && error instanceof Error) io.stderr(`${error.stack ?? ''}\n`);
  return EXIT.failed;
}

/** No space, no permission and the like: errors of a system call, not of the program. */
function isOfTheDisk(error: unknown): boolean {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}
