import { closeSync, fstatSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';

/** Bytes of a file, to be read from the front, or in places. */
export interface TableSource {
  /** As the user named it; for messages. */
  name: string;
  size: number;
  /** `length` bytes from a position; fewer at the end. */
  readAt: (position: number, length: number) => Uint8Array;
  /** All bytes in order, in pieces of any length. */
  chunks: () => AsyncIterable<Uint8Array>;
}

const CHUNK = 1 << 18;

/**
 * A file on the disk as a source. Nothing is kept open between calls.
 *
 * in: path, where it lies; name, as the user wrote it (the path by default); most_B, bytes it may have
 * out: the source
 * throws: FILE_MISSING, FILE_UNREADABLE (a folder, a device, no permission), FILE_TOO_LARGE
 */
export function fileSource(path: string, name = path, most_B: number = INPUT_LIMITS.weather_B): TableSource {
  const withFile = <T>(use: (handle: number) => T): T => {
    try {
      refuseUnusual(path, name, most_B);
      const handle = openSync(path, 'r');
      try {
        return use(handle);
      } finally {
        closeSync(handle);
      }
    } catch (error) {
      throw unreadable(error, path, name);
    }
  };
  const size = withFile((handle) => {
    // A folder opens, but cannot be read.
    readSync(handle, new Uint8Array(1), 0, 1, 0);
    return fstatSync(handle).size;
  });
  return sourceOf(name, size, (position, length) =>
    withFile((handle) => {
      const bytes = new Uint8Array(Math.max(0, Math.min(length, size - position)));
      return bytes.subarray(0, readSync(handle, bytes, 0, bytes.length, position));
    }),
  );
}

/** Bytes in memory as a source. */
export function bytesSource({ name, bytes }: NamedBytes): TableSource {
  return sourceOf(name, bytes.length, (position, length) => bytes.subarray(position, position + length));
}

function sourceOf(name: string, size: number, readAt: TableSource['readAt']): TableSource {
  return {
    name,
    size,
    readAt,
    async *chunks() {
      for (let at = 0; at < size; at += CHUNK) yield readAt(at, CHUNK);
    },
  };
}

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
  const source = fileSource(path, name, most_B);
  return { name, bytes: source.readAt(0, source.size) };
}

/**
 * Refuses what is no file, and might never end, and a file of more bytes than are read.
 * throws: FILE_UNREADABLE, FILE_TOO_LARGE; an error of the disk
 */
function refuseUnusual(path: string, name: string, most_B: number): void {
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

const DISK_ERRORS: Record<string, string> = {
  EISDIR: 'a folder',
  EACCES: 'no permission to read it',
  EPERM: 'no permission to read it',
};

/** The problem behind an error of the disk. in: error, as node throws it; path; name for the message. out: to be thrown */
function unreadable(error: unknown, path: string, name: string): InputProblem {
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
  return new InputProblem({
    code: 'FILE_UNREADABLE',
    file: name,
    got: DISK_ERRORS[reason] ?? `an error of the disk (${reason})`,
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

/** What is read at most, so that no file can fill the memory; the README says the same. */
export const INPUT_LIMITS = {
  /** Bytes of a scenario. */
  scenario_B: 1e6,
  /** Bytes of a file that is read at one go: horizons, logs, readings, weather whose columns a scenario states. */
  file_B: 256e6,
  /** Bytes, unpacked, of a weather file that is recognised. */
  weather_B: 4e9,
  /** Characters of a line of any of them but a scenario. */
  line: 300_000,
  columns: 1000,
} as const;

/** A file of more bytes than are read. in: file, as the user named it; most_B */
export function tooManyBytes(file: string, most_B: number): InputProblem {
  return tooLarge(file, `more than ${most_B / 1e6} MB`, `${most_B / 1e6} MB at most`);
}

/**
 * Refuses a row of very many columns.
 * in: file, as the user named it; columns, how many
 * throws: FILE_TOO_LARGE
 */
export function refuseManyColumns(file: string, columns: number): void {
  const { columns: most } = INPUT_LIMITS;
  if (columns > most) throw tooLarge(file, `${columns} columns`, `${most} columns at most`);
}

/** A file that is larger than what is read, in words. */
export function tooLarge(file: string, got: string, expected: string): InputProblem {
  return new InputProblem({ code: 'FILE_TOO_LARGE', file, got, expected, fix: 'is this the right file?' });
}
