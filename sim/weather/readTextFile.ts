import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { INPUT_LIMITS, tooManyBytes } from './inputLimits.ts';

/** A file as its reader wants it: the name the user gave, and the bytes. */
export interface NamedBytes {
  name: string;
  bytes: Uint8Array;
}

/**
 * A file's bytes from the disk, under the name messages shall use.
 *
 * in: path, where it lies; name, as the user wrote it (the path by default); most_B, bytes it may have
 * out: name and bytes
 * throws: FILE_MISSING (offers a file of nearly that name), FILE_UNREADABLE (a folder, a device, no permission),
 *   FILE_TOO_LARGE
 */
export function readTextFile(path: string, name = path, most_B: number = INPUT_LIMITS.file_B): NamedBytes {
  try {
    refuseUnusual(path, name, most_B);
    return { name, bytes: readFileSync(path) };
  } catch (error) {
    throw unreadable(error, path, name);
  }
}

/**
 * Refuses what is no file, and might never end, and a file of more bytes than are read.
 * throws: FILE_UNREADABLE, FILE_TOO_LARGE; an error of the disk
 */
export function refuseUnusual(path: string, name: string, most_B: number): void {
  const entry = statSync(path);
  // Reading says of a folder what it is.
  if (entry.isDirectory()) return;
  if (!entry.isFile()) {
    throw new InputProblem({
      code: 'FILE_UNREADABLE',
      file: name,
      got: 'a device or a pipe',
      expected: 'a file',
      fix: 'write what it gives into a file, and name that.',
    });
  }
  if (entry.size > most_B) throw tooManyBytes(name, most_B);
}

/** The problem behind an error of the disk. in: error, as node throws it; path; name for the message. out: to be thrown */
export function unreadable(error: unknown, path: string, name: string): InputProblem {
  if (error instanceof InputProblem) return error;
  const reason = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (reason === 'ENOENT' || reason === 'ENOTDIR') {
    const near = nearestFile(path);
    return new InputProblem({
      code: 'FILE_MISSING',
      file: name,
      got: 'no such file',
      expected: 'a file to read',
      fix: near === undefined ? 'check the path.' : `did you mean "${near}" in the same folder?`,
    });
  }
  const reasons: Record<string, string> = {
    EISDIR: 'a folder',
    EACCES: 'no permission to read it',
    EPERM: 'no permission to read it',
  };
  return new InputProblem({
    code: 'FILE_UNREADABLE',
    file: name,
    got: reasons[reason] ?? `an error of the disk (${reason})`,
    expected: 'a file that can be read',
    fix: reason === 'EISDIR' ? 'name a file in it.' : 'change its permissions, or copy it.',
  });
}

function nearestFile(path: string): string | undefined {
  try {
    return nearestWord(basename(path), readdirSync(dirname(path)));
  } catch {
    return undefined;
  }
}
