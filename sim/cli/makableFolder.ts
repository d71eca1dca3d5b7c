import { existsSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Io, pathFrom } from './Io.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * A folder that files are to be written into, before the work that they come of: it is there, or can be made.
 *
 * in: folder, as typed; typed, the option with its value; instead, one that would do; io
 * out: its path, from where the user stands
 * throws: USAGE where a file stands in its place or on the way to it
 */
export function makableFolder(folder: string, typed: string, instead: string, io: Io): string {
  const path = pathFrom(io, folder);
  let there = resolve(path);
  while (!existsSync(there)) there = dirname(there);
  if (statSync(there).isDirectory()) return path;
  throw usageMistake(
    `${typed}, where ${there} is a file`,
    'a folder, or a place where one can be made',
    instead,
  );
}
