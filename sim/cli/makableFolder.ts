import { existsSync, mkdtempSync, rmdirSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Io, pathFrom } from './Io.ts';
import { usageMistake } from './usageProblem.ts';

/**
 * A folder that files are to be written into, before the work that they come of: it is there, or can be made.
 *
 * in: folder, as typed; typed, the option with its value; instead, one that would do; io
 * out: its path, from where the user stands
 * throws: USAGE where a file stands in its place or on the way to it, or none can be made there
 */
export function makableFolder(folder: string, typed: string, instead: string, io: Io): string {
  const path = pathFrom(io, folder);
  let there = resolve(path);
  while (!existsSync(there)) there = dirname(there);
  const refuse = (what: string): never => {
    throw usageMistake(`${typed}, where ${what}`, 'a folder, or a place where one can be made', instead);
  };
  if (!statSync(there).isDirectory()) refuse(`${there} is a file`);
  if (!takesFolders(there)) refuse(`no folder can be made in ${there}`);
  return path;
}

/**
 * Tried, and taken away again: a system of files that is none, as /proc, says that the folder itself is not there, and
 * making folders upon folders in it would never end. What else is in the way is said when it is written into.
 */
function takesFolders(folder: string): boolean {
  try {
    rmdirSync(mkdtempSync(join(folder, '.try-')));
    return true;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ENOENT');
  }
}
