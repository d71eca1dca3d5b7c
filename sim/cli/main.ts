#!/usr/bin/env node
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { program } from '../output/program.ts';
import { COMMANDS } from './commands.ts';
import { answerToError, EXIT, ioOf, type World } from './Io.ts';
import { parseCommandLine } from './parseCommandLine.ts';

/**
 * The command line, without its process: understands what was typed, runs it, answers every error.
 *
 * in: argv, the words after the program's name; world outside
 * out: exit code
 */
export async function main(argv: readonly string[], world: World): Promise<number> {
  const io = ioOf(world);
  try {
    const asked = await parseCommandLine(argv, COMMANDS, program().version);
    if ('text' in asked) {
      io.stdout(asked.text);
      return EXIT.ran;
    }
    const run = await asked.command.load();
    return await run(asked.args, io);
  } catch (error) {
    return answerToError(error, io);
  }
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
    isTTY: { stdout: stdout.isTTY === true, stderr: stderr.isTTY === true },
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
