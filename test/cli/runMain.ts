import { main } from '../../sim/cli/main.ts';

/** What came of a command line. */
export interface Answer {
  code: number;
  stdout: string;
  stderr: string;
}

export interface World {
  cwd?: string;
  tty?: boolean;
  /** Columns of the terminal. */
  columns?: number;
  env?: Record<string, string>;
  /** What comes on standard input. */
  input?: string | undefined;
  /** What a person answers, question after question; undefined where none watches. */
  answers?: string[] | undefined;
  /** Ctrl-C comes when this was said on stderr. */
  interruptAt?: string;
  /** The same, once, for work that hears it between two turns. */
  signalAt?: string;
}

/** Runs the command line in this process, its world caught in strings. */
export async function runMain(argv: readonly string[], world: World = {}): Promise<Answer> {
  const { cwd = '', tty = false, columns, env = {}, input = '', answers, interruptAt, signalAt } = world;
  const caught = { stdout: '', stderr: '' };
  let signalled = false;
  const code = await main(argv, {
    stdout: (text) => {
      caught.stdout += text;
    },
    stderr: (text) => {
      caught.stderr += text;
      if (interruptAt !== undefined && text.includes(interruptAt)) pressCtrlC();
      if (!signalled && signalAt !== undefined && text.includes(signalAt)) {
        signalled = true;
        process.kill(process.pid, 'SIGINT');
      }
    },
    isTTY: { stdout: tty, stderr: tty },
    columns,
    onInterrupt: (heard) => {
      process.once('SIGINT', heard);
      return () => process.off('SIGINT', heard);
    },
    env,
    stdin: async function* () {
      yield Buffer.from(input);
    },
    ask:
      answers &&
      (async (question) => {
        caught.stderr += question;
        return answers.shift() ?? '';
      }),
    clock_s: () => 0,
    cwd,
  });
  return { code, ...caught };
}

/** Never goes on: for work that the signal breaks off. */
export function pressCtrlC(): void {
  process.kill(process.pid, 'SIGINT');
  for (;;);
}
