import { existsSync, readdirSync, readFileSync, rmdirSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { type FigureFile, standaloneSvg } from './figures/standaloneSvg.ts';
import { UnfinishedFiles } from './UnfinishedFiles.ts';

/** A file to be written: its name, and its text (or the bytes of it) piece by piece. */
export interface FileToWrite {
  name: string;
  pieces: () => Iterable<string | Uint8Array>;
}

/**
 * Writes files into a folder, all of them or none, as `UnfinishedFiles` does.
 *
 * in: folder, made where it is not there; files, in order; known, names of all files that may stand there from an
 *   earlier time: those not written now are taken away
 * throws: Error of the disk (no permission, no space)
 */
export function writeFiles(folder: string, files: readonly FileToWrite[], known: readonly string[]): void {
  const unfinished = new UnfinishedFiles(folder);
  try {
    for (const { name, pieces } of files) {
      unfinished.begin(name);
      for (const piece of pieces()) unfinished.append(name, piece);
    }
    unfinished.moveInto(folder, known);
  } finally {
    unfinished.discard();
  }
}

/**
 * Writes files into a folder of the user's, all of them or none; into one that is not there yet in one step, so that not
 * even the end of the program leaves a part of them.
 *
 * in: folder; files, the most important last, names with the folders that they lie in; check, of all of them, given the
 *   folder that they lie in before they are moved
 * throws: what `check` throws; Error of the disk (no permission, no space)
 */
export function writeFolder(
  folder: string,
  files: readonly { name: string; content: string | Uint8Array }[],
  check: (folder: string) => void,
): void {
  const isNew = !existsSync(folder);
  const own = isNew ? basename(folder) : '';
  const unfinished = new UnfinishedFiles(isNew ? dirname(folder) : folder);
  try {
    for (const { name, content } of files) {
      unfinished.begin(join(own, name));
      unfinished.append(join(own, name), content);
    }
    check(unfinished.pathOf(own));
    if (isNew) unfinished.moveFolder(own, folder);
    else unfinished.moveInto(folder, []);
  } finally {
    unfinished.discard();
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

/** Folder within a result's own, for a part of it. */
export const PARTIAL = 'partial';

/**
 * The folder of a result below that of all. A part of one, interrupted, never takes the place of a whole one: it goes
 * into a folder within.
 *
 * in: out, folder of all; name of the result's own; json, name of its JSON file; ofPart, whether it is of a part
 */
export function resultFolder(out: string, name: string, json: string, ofPart: boolean): string {
  const earlier = ofPart ? fileText(join(out, name, json)) : undefined;
  return earlier === undefined || IS_OF_PART.test(earlier) ? name : join(name, PARTIAL);
}

/** A result in its folder. */
export interface WrittenResult {
  /** Its own folder below that of all. */
  folder: string;
  /** Names of the files in it, the JSON last. */
  files: string[];
  /** The text of the JSON, byte for byte. */
  json: string;
}

/** A result of which nothing is to be written. */
export const UNWRITTEN = { folder: '', files: [] };

/** Where a result goes: its own folder, its page and its JSON by name; all that may stand there from an earlier time. */
interface ResultPlace {
  /** Folder that gets one folder per result; undefined where nothing is to be written. */
  out: string | undefined;
  name: string;
  page: string;
  json: string;
  known: readonly string[];
  /** Whether it was interrupted. */
  partial: boolean;
}

/**
 * Writes the files of a result, all of them or none, the page and the JSON last; a part of one as `resultFolder` says,
 * which the next whole one takes away.
 *
 * in: place; others, adds the other files, given the folder that they go to, and makes page and JSON of the names and the
 *   SHA-256 of all before them
 * out: with no names of files where nothing is written
 * throws: Error of the disk (no permission, no space)
 */
export function writeResult(
  { out, name, page, json, known, partial }: ResultPlace,
  others: (
    add: (file: string, text: string) => void,
    folder: string,
  ) => { page: (files: string[]) => string; json: (sums: Record<string, string>) => string },
): WrittenResult {
  if (out === undefined) return { ...UNWRITTEN, json: others(() => {}, '').json({}) };
  const folder = resultFolder(out, name, json, partial);
  const target = join(out, folder);
  const files = new UnfinishedFiles(join(out, name));
  const add = (file: string, text: string) => {
    files.begin(file);
    files.append(file, text);
    return text;
  };
  try {
    const made = others(add, target);
    add(page, made.page([...Object.keys(files.sums()), json]));
    const text = add(json, made.json(files.sums()));
    const names = Object.keys(files.sums());
    files.moveInto(target, known);
    if (!partial) takeAway(join(out, name, PARTIAL), known);
    return { folder, files: names, json: text };
  } finally {
    files.discard();
  }
}

/** A JSON file, as text of any origin, that says that it was interrupted. */
const IS_OF_PART = /^ {2}"partial": /m;

/** The text of a file that may stand there from an earlier time; undefined where there is none. */
function fileText(path: string): string | undefined {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
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
