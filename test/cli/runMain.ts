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
  env?: Record<string, string>;
}

/** Runs the command line in this process, its world caught in strings. */
export async function runMain(argv: readonly string[], world: World = {}): Promise<Answer> {
  const { cwd = '', tty = false, env = {} } = world;
  const caught = { stdout: '', stderr: '' };
  const code = await main(argv, {
    stdout: (text) => {
      caught.stdout += text;
    },
    stderr: (text) => {
      caught.stderr += text;
    },
    isTTY: { stdout: tty, stderr: tty },
    env,
    cwd,
  });
  return { code, ...caught };
}
