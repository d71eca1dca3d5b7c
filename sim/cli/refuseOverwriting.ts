import { isSameFile } from '../output/writeFiles.ts';
import type { Arguments } from './Command.ts';
import { filesTyped } from './filesTyped.ts';
import { type Io, pathFrom } from './Io.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * What is written over cannot be read again.
 *
 * in: target, of --write; instead, a name that would do; args; io
 * throws: USAGE where it is a file that is read
 */
export function refuseOverwriting(target: string, instead: string, args: Arguments, io: Io): void {
  const scenario = args.text('scenario');
  const read = filesTyped([...args.words, ...(scenario === undefined ? [] : [scenario])], io);
  if (!read.some(({ path }) => isSameFile(path, pathFrom(io, target)))) return;
  throw usageMistake(`--write ${target}`, 'another file than the one that is read', `--write ${instead}`);
}
