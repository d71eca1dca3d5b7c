import { isAbsolute, join } from 'node:path';
import { InputProblem } from '../common/InputProblem.ts';
import { visibleText } from '../common/visibleText.ts';
import { type Look, TERMINAL_COLUMNS } from '../output/textTable.ts';

/** What the process has of the world outside, so that tests can stand in for it. */
export interface World {
  stdout: (text: string) => void;
  stderr: (text: string) => void;
  /** What comes on standard input, in pieces. */
  stdin: () => AsyncIterable<Uint8Array>;
  /** Whether a person watches. */
  isTTY: { stdout: boolean; stderr: boolean };
  /** Columns of the terminal that results go to; undefined where there is none. */
  columns: number | undefined;
  /** Has the next Ctrl-C told to `heard`, and not end the program; the one after it, and any once this is let go, does. */
  onInterrupt: (heard: () => void) => () => void;
  env: Readonly<Record<string, string | undefined>>;
  /** Asks the person who watches, and waits for a line; undefined where none does. */
  ask?: ((question: string) => Promise<string>) | undefined;
  /** Seconds that have passed since any instant: for progress alone, no result may lean on it. */
  clock_s: () => number;
  /** Folder that relative paths start from; '' is the process's own. */
  cwd: string;
}

/**
 * All that a command may touch of the world outside. Whatever names and headings bring along, nothing that it says is
 * obeyed by a terminal but its own colours: all else is shown by its number.
 */
export interface Io extends World {
  /** The file that holds what came on standard input, where it was asked for. */
  standardInput: string | undefined;
  /** Results. */
  stdout: (text: string) => void;
  /** Results as the terminal takes them: `textOf` is told of its colours and columns. */
  stdoutLaidOut: (textOf: (look: Look) => string) => void;
  /** Talk, problems. */
  stderr: (text: string) => void;
  /** Progress: one line that is written over by the next, and wiped by ''; only where a person watches. */
  progress: (line: string) => void;
}

const ESCAPE = '\u001b';
/** A change of colour or weight. */
const COLOUR = new RegExp(`(${ESCAPE}\\[\\d+m)`);

/**
 * What a command may touch of a world.
 *
 * in: world, whose stdout and stderr say all that they are given; standardInput, the file that holds it
 * out: io
 */
export function ioOf(world: World, standardInput?: string): Io {
  const stdout = (text: string) => world.stdout(visibleText(text));
  return {
    ...world,
    standardInput,
    stdout,
    stdoutLaidOut: (textOf) => {
      const columns = columnsOf(world);
      const plain = textOf({ columns });
      // Among the escapes of somebody else our own could not be told.
      if (!takesColour(world) || plain.includes(ESCAPE)) return stdout(plain);
      const pieces = textOf({ columns, colour: true }).split(COLOUR);
      world.stdout(pieces.map((piece, k) => (k % 2 === 1 ? piece : visibleText(piece))).join(''));
    },
    stderr: (text) => world.stderr(visibleText(text)),
    progress: (line) => {
      if (world.isTTY.stderr) world.stderr(line === '' ? `\r${ESCAPE}[K` : `\r${visibleText(line)} `);
    },
  };
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

/** Typed in place of a file: standard input, or after --write standard output. */
export const STANDARD = '-';

/**
 * A path as the file system needs it, as near as can be to what was typed.
 *
 * in: io; path, as typed
 * out: the path, from where the user stands
 * @example pathFrom({ cwd: 'home', standardInput: undefined }, 'garden.yaml'); // => 'home/garden.yaml'
 */
export function pathFrom({ cwd, standardInput }: Pick<Io, 'cwd' | 'standardInput'>, path: string): string {
  if (path === STANDARD && standardInput !== undefined) return standardInput;
  return cwd === '' || isAbsolute(path) ? path : join(cwd, path);
}

/** Whether results may be coloured: where NO_COLOR is not set to anything, on a terminal or where FORCE_COLOR says so. */
function takesColour({ env, isTTY }: World): boolean {
  if ((env.NO_COLOR ?? '') !== '') return false;
  const forced = env.FORCE_COLOR ?? '';
  if (forced !== '') return forced !== '0';
  return isTTY.stdout && env.TERM !== 'dumb';
}

/** Lines of results are no shorter, however narrow the terminal. */
const LEAST_COLUMNS = 60;

/** Columns of the terminal, as COLUMNS says or the terminal itself; of a file and where nobody says it as many as ever. */
function columnsOf({ env, isTTY, columns }: World): number {
  if (!isTTY.stdout) return TERMINAL_COLUMNS;
  const said = /^[1-9]\d{0,3}$/.test(env.COLUMNS ?? '') ? Number(env.COLUMNS) : columns;
  return Math.max(said || TERMINAL_COLUMNS, LEAST_COLUMNS);
}

/** Work that lasts shorter says nothing of how long it will. */
const SOON_S = 2;

/**
 * Does work while one line on stderr counts up and says what time is left, only where a person watches.
 *
 * in: io; word, what is counted; work, which says how far it is
 * out: what comes of the work; the line is wiped
 */
export async function withProgress<Result>(
  io: Pick<Io, 'progress' | 'clock_s'>,
  word: string,
  work: (show: (done: number, all: number) => void) => Result | Promise<Result>,
): Promise<Result> {
  const begun_s = io.clock_s();
  const left = (done: number, all: number): string => {
    const passed_s = io.clock_s() - begun_s;
    const left_s = (passed_s / done) * (all - done);
    if (passed_s < SOON_S || done === 0) return '';
    return left_s < 90 ? `, about ${Math.ceil(left_s)} s left` : `, about ${Math.ceil(left_s / 60)} min left`;
  };
  try {
    return await work((done, all) => io.progress(`${word} ${done} of ${all}${left(done, all)}`));
  } finally {
    io.progress('');
  }
}

/**
 * Says what went wrong, on stderr: every problem of an input, on stdout as JSON too where that is asked for; one line for
 * anything else, with the stack only where the environment has LONGNIGHT_TRACE=1.
 *
 * in: error, as caught; io; asJson
 * out: exit code
 */
export async function answerToError(error: unknown, io: Io, asJson = false): Promise<number> {
  if (error instanceof InputProblem) {
    const { problems } = error;
    if (asJson) {
      const [{ jsonText }, { program }] = [
        await import('../output/json.ts'),
        await import('../output/program.ts'),
      ];
      io.stdout(jsonText(program(), { problems }));
    }
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
