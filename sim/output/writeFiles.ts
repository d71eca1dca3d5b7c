import { createHash } from 'node:crypto';
import {
  closeSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { kill, pid } from 'node:process';
import { DAY_MS } from '../common/time.ts';
import { type FigureFile, standaloneSvg } from './figures/standaloneSvg.ts';

/** A file to be written: its name, and its text (or the bytes of it) piece by piece, which may hold the digests of those before it. */
export interface FileToWrite {
  name: string;
  pieces: (sums: Readonly<Record<string, string>>) => Iterable<string | Uint8Array>;
}

/**
 * Writes files into a folder, all of them or none: first beside the target under another name, then renamed into
 * place in their order. Where that fails half-way, the files of an earlier time are put back. What a killed process left
 * there, not finished, is taken away: that of one which is gone, or of which nothing was touched for a day.
 *
 * in: folder, made where it is not there; files, in order; known, names of all files that may stand there from an
 *   earlier time: those not written now are taken away
 * out: SHA-256 of each file by name, hexadecimal
 * throws: Error of the disk (no permission, no space)
 */
export function writeFiles(
  folder: string,
  files: readonly FileToWrite[],
  known: readonly string[],
): Record<string, string> {
  mkdirSync(folder, { recursive: true });
  const workshop = openWorkshop(folder);
  try {
    const sums: Record<string, string> = {};
    for (const { name, pieces } of files) sums[name] = writeFile(join(workshop, name), pieces({ ...sums }));
    moveIntoPlace(
      workshop,
      folder,
      files.map((file) => file.name),
      known,
    );
    return sums;
  } finally {
    rmSync(workshop, { recursive: true, force: true });
  }
}

const UNFINISHED = /^\.unfinished-(?:([0-9a-f]+)-(\d+)-)?/;
/** This machine, in a few letters: the number of a process says nothing on another. */
const MACHINE = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** A folder for files that are not finished; those that killed processes left behind are taken away. */
function openWorkshop(folder: string): string {
  const workshop = mkdtempSync(join(folder, `.unfinished-${MACHINE}-${pid}-`));
  const now_ms = statSync(workshop).mtimeMs;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const other = join(folder, entry.name);
    const [unfinished, machine, owner] = UNFINISHED.exec(entry.name) ?? [];
    if (unfinished === undefined || !entry.isDirectory() || other === workshop) continue;
    try {
      const gone = machine === MACHINE && !isRunning(Number(owner));
      if (gone || lastTouched_ms(other) < now_ms - DAY_MS) rmSync(other, { recursive: true, force: true });
    } catch {
      // Somebody else's, or gone by now: it hinders nobody.
    }
  }
  return workshop;
}

function lastTouched_ms(folder: string): number {
  const paths = [folder, ...readdirSync(folder).map((name) => join(folder, name))];
  return Math.max(...paths.map((path) => statSync(path).mtimeMs));
}

function isRunning(owner: number): boolean {
  try {
    return kill(owner, 0);
  } catch (error) {
    // It runs, and is another user's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Whether two paths, through whatever links, lead to one file that is there. */
export function isSameFile(one: string, other: string): boolean {
  const [a, b] = [one, other].map((path) => statSync(path, { bigint: true, throwIfNoEntry: false }));
  return a !== undefined && b !== undefined && a.dev === b.dev && a.ino === b.ino;
}

/** Takes known files away, and their folder where nothing else is left in it. */
export function takeAway(folder: string, known: readonly string[]): void {
  for (const name of known) rmSync(join(folder, name), { force: true });
  if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
}

/** The text of a file that may stand there from an earlier time; undefined where there is none. */
export function fileText(path: string): string | undefined {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

/** Writes pieces of text to a new file; out: its SHA-256. */
function writeFile(path: string, pieces: Iterable<string | Uint8Array>): string {
  const digest = createHash('sha256');
  const file = openSync(path, 'wx');
  try {
    for (const piece of pieces) {
      const bytes = typeof piece === 'string' ? Buffer.from(piece, 'utf8') : piece;
      digest.update(bytes);
      for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    }
  } finally {
    closeSync(file);
  }
  return digest.digest('hex');
}

/** Renames new files over those of an earlier time, and takes away what was not written now; all of it, or nothing. */
function moveIntoPlace(
  workshop: string,
  folder: string,
  files: readonly string[],
  known: readonly string[],
): void {
  const isFile = (name: string) => statSync(join(folder, name), { throwIfNoEntry: false })?.isFile() === true;
  const earlier = known.filter(isFile);
  for (const name of earlier) copyFileSync(join(folder, name), join(workshop, `earlier-${name}`));
  const moved: string[] = [];
  try {
    for (const name of files) {
      renameSync(join(workshop, name), join(folder, name));
      moved.push(name);
    }
    for (const name of earlier) {
      if (!files.includes(name)) rmSync(join(folder, name));
    }
  } catch (error) {
    for (const name of moved) {
      if (earlier.includes(name)) renameSync(join(workshop, `earlier-${name}`), join(folder, name));
      else rmSync(join(folder, name), { force: true });
    }
    throw error;
  }
}

/**
 * Writes pictures as SVG files into a folder, all of them or none; files of other names there stay.
 *
 * in: folder; files
 * out: names of the files
 * throws: Error of the disk
 */
export function writeFigures(folder: string, files: readonly FigureFile[]): string[] {
  const toWrite = files.map(({ name, figure }) => ({ name, pieces: () => [standaloneSvg(figure)] }));
  const names = files.map(({ name }) => name);
  writeFiles(folder, toWrite, names);
  return names;
}
