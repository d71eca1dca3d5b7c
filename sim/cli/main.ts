#!/usr/bin/env node
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { program } from '../output/program.ts';
import type { Command } from './Command.ts';
import { checkCommand } from './commands/check.ts';
import { compareCommand } from './commands/compare.ts';
import { fitCommand } from './commands/fit.ts';
import { runCommand } from './commands/run.ts';
import { weatherCommand } from './commands/weather.ts';
import { answerToError, EXIT, type Io } from './Io.ts';
import { parseCommandLine } from './parseCommandLine.ts';

/** Every command, in the order of the help. A new one is a file in commands/ and a name here. */
const COMMANDS: readonly Command[] = [runCommand, compareCommand, weatherCommand, fitCommand, checkCommand];

/**
 * The command line, without its process: understands what was typed, runs it, answers every error.
 *
 * in: argv, the words after the program's name; io, the world outside
 * out: exit code
 */
export async function main(argv: readonly string[], io: Io): Promise<number> {
  try {
    const asked = await parseCommandLine(argv, COMMANDS, program().version);
    if ('command' in asked) return await asked.command.run(asked.args, io);
    io.stdout(asked.text);
    return EXIT.ran;
  } catch (error) {
    return answerToError(error, io);
  }
}

const { argv, env, stderr, stdout } = process;
if (argv[1] !== undefined && realpathSync(argv[1]) === fileURLToPath(import.meta.url)) {
  process.on('SIGINT', () => process.exit(EXIT.interrupted));
  // A reader that closes the pipe early (head, less) has seen enough.
  stdout.on('error', (error: NodeJS.ErrnoException) =>
    process.exit(error.code === 'EPIPE' ? EXIT.ran : EXIT.failed),
  );
  process.exitCode = await main(argv.slice(2), {
    stdout: (text) => stdout.write(text),
    stderr: (text) => stderr.write(text),
    isTTY: { stdout: stdout.isTTY === true, stderr: stderr.isTTY === true },
    env,
    cwd: '',
  });
}
