import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';

/** A file as its reader wants it: the name the user gave, and the bytes. */
export interface NamedBytes {
  name: string;
  bytes: Uint8Array;
}

/**
 * A file's bytes from the disk, under the name messages shall use.
 *
 * in: path, where it lies; name, as the user wrote it (the path by default)
 * out: name and bytes
 * throws: FILE_MISSING (offers a file of nearly that name), FILE_UNREADABLE (a folder, no permission)
 */
export function readTextFile(path: string, name = path): NamedBytes {
  try {
    return { name, bytes: readFileSync(path) };
  } catch (error) {
    throw unreadable(error, path, name);
  }
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
