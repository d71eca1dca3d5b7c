import { existsSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { isSameFile, writeFiles } from '../output/writeFiles.ts';
import type { Arguments } from './Command.ts';
import { filesTyped } from './filesTyped.ts';
import { type Io, pathFrom, STANDARD } from './Io.ts';
import { makableFolder } from './makableFolder.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * Before anything is read, whether --write can be done: what is written over cannot be read again, what is there is only
 * replaced where --force says so, and standard output takes one thing.
 *
 * in: instead, a name that would do; args; io
 * out: io for all that is said beside: on stderr where standard output is written
 * throws: USAGE
 */
export function besideSaved(instead: string, args: Arguments, io: Io): Io {
  const target = args.text('write');
  if (target === undefined) return io;
  if (target === STANDARD) {
    if (args.has('json'))
      throw usageMistake('--json and --write -', 'one of them on standard output', `--write ${instead}`);
    return { ...io, stdout: io.stderr, stdoutLaidOut: (textOf) => io.stderr(textOf({})) };
  }
  makableFolder(dirname(target), `--write ${target}`, `--write ${instead}`, io);
  const scenario = args.text('scenario');
  const read = filesTyped([...args.words, ...(scenario === undefined ? [] : [scenario])], io);
  const path = pathFrom(io, target);
  if (read.some((file) => isSameFile(file.path, path)))
    throw usageMistake(`--write ${target}`, 'another file than the one that is read', `--write ${instead}`);
  if (existsSync(path) && !args.has('force'))
    throw usageMistake(
      `--write ${target}, which is there already`,
      'a new file',
      `--write ${instead}, or --force to replace it`,
    );
  return args.has('json') ? { ...io, stdout: io.stderr } : io;
}

/**
 * Saves what --write asks for, where it was typed, and says so.
 *
 * in: text; about, what it is; args; io; beside, as `besideSaved` gives it
 * throws: Error of the disk
 */
export function saveTyped(text: string, about: string, args: Arguments, io: Io, beside: Io): void {
  const target = args.text('write');
  if (target === undefined) return;
  if (target === STANDARD) {
    io.stdout(text);
    return;
  }
  const path = pathFrom(io, target);
  writeFiles(dirname(path), [{ name: basename(path), pieces: () => [text] }], []);
  beside.stdout(`\n${about}, in\n${target}\n`);
}
