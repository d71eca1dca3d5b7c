#!/usr/bin/env node
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { program } from '../output/program.ts';
import type { Arguments } from './Command.ts';
import { COMMANDS } from './commands.ts';
import { answerToError, EXIT, type Io, ioOf, type World } from './Io.ts';
import { parseCommandLine } from './parseCommandLine.ts';
import { type StandardInput, standardInput } from './standardInput.ts';

/**
 * The command line, without its process: understands what was typed, runs it, answers every error.
 *
 * in: argv, the words after the program's name; world outside
 * out: exit code
 */
export async function main(argv: readonly string[], world: World): Promise<number> {
  let input: StandardInput | undefined;
  let io = ioOf(world);
  try {
    if (readsStandardInput(argv)) {
      input = await standardInput(world.stdin());
      io = ioOf(world, input.path);
    }
    const asked = await parseCommandLine(argv, COMMANDS, program().version);
    if ('text' in asked) {
      io.stdout(asked.text);
      return EXIT.ran;
    }
    const run = await asked.command.load();
    return await run(asked.args, asWished(world, asked.args, io));
  } catch (error) {
    return await answerToError(error, io, argv.includes('--json'));
  } finally {
    input?.remove();
  }
}

/** The world as the options of every command want it. */
function asWished(world: World, args: Arguments, io: Io): Io {
  const env = args.has('no-color') ? { ...world.env, NO_COLOR: '1' } : world.env;
  if (!args.has('quiet')) return ioOf({ ...world, env }, io.standardInput);
  const isTTY = { ...world.isTTY, stderr: false };
  return ioOf({ ...world, env, isTTY, stderr: () => {} }, io.standardInput);
}

/** Whether a word, or the value of an option, is standard input: '-' but after --write. */
function readsStandardInput(argv: readonly string[]): boolean {
  return argv.some((word, k) => {
    const joined = word === '-' ? `${argv[k - 1] ?? ''}=-` : word;
    return joined.endsWith('=-') && !joined.startsWith('--write=');
  });
}

const { argv, env, stderr, stdin, stdout } = process;
if (argv[1] !== undefined && realpathSync(argv[1]) === fileURLToPath(import.meta.url)) {
  // What was found stands, whoever can be told of it; but an answer that a full disk lost is no success. A reader that
  // closes the pipe early (head, less) has seen enough.
  let lost = false;
  stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
    lost ||= code !== 'EPIPE';
  });
  stderr.on('error', () => {});
  process.on('exit', (code) => {
    if (code === EXIT.ran && lost) process.exitCode = EXIT.failed;
  });
  process.exitCode = await main(argv.slice(2), {
    stdout: (text) => stdout.write(text),
    stderr: (text) => stderr.write(text),
    stdin: () => stdin,
    isTTY: { stdout: stdout.isTTY === true, stderr: stderr.isTTY === true },
    columns: stdout.columns,
    onInterrupt: (heard) => {
      process.once('SIGINT', heard);
      return () => process.off('SIGINT', heard);
    },
    env,
    ask: stdin.isTTY === true && stderr.isTTY === true ? ask : undefined,
    clock_s: () => Number(process.hrtime.bigint()) / 1e9,
    cwd: '',
  });
}

/** Asks on stderr, and waits for a line on stdin; '' where there is none. */
async function ask(question: string): Promise<string> {
  const { createInterface } = await import('node:readline/promises');
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await lines.question(question);
  } finally {
    lines.close();
  }
}
