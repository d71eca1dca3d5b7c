import { createHash } from 'node:crypto';
import {
  closeSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type { RunResult } from '../trial/RunResult.ts';
import { hoursCsv } from './hoursCsv.ts';
import { nightsCsv } from './nightsCsv.ts';
import { program } from './program.ts';
import { summaryJson } from './summaryJson.ts';

export interface WriteOptions {
  /** Folder that gets one folder per scenario. */
  out: string;
  /** Write hours.csv however many years the record holds; otherwise only for one year or less. */
  hours?: boolean;
}

export interface WrittenRun {
  /** The run's own folder. */
  folder: string;
  /** Names of the files in it that this run wrote, summary.json last. */
  files: string[];
  /** The text of summary.json, byte for byte. */
  summary: string;
}

const HOURS_OF_A_YEAR = 8784;
const FILES_OF_A_RUN = ['nights.csv', 'hours.csv', 'summary.json'];

/**
 * Writes a run's files into `<out>/<name>/`: first beside the target under another name, then renamed into place,
 * summary.json last. Where that fails half-way, the files of an earlier run are put back.
 *
 * in: run; options
 * out: what was written, and where
 * throws: Error of the disk (no permission, no space)
 */
export function writeRun(run: RunResult, options: WriteOptions): WrittenRun {
  const folder = join(options.out, run.scenario.name);
  mkdirSync(folder, { recursive: true });
  const workshop = mkdtempSync(join(folder, '.unfinished-'));
  try {
    const { timeZone } = run.scenario.site;
    const sums: Record<string, string> = {
      'nights.csv': writeFile(join(workshop, 'nights.csv'), [nightsCsv(run.trials, timeZone)]),
    };
    if (options.hours === true || run.weather.hours <= HOURS_OF_A_YEAR) {
      sums['hours.csv'] = writeFile(join(workshop, 'hours.csv'), hoursCsv(run.trials, timeZone));
    }
    const summary = summaryJson(run, program(), sums);
    writeFile(join(workshop, 'summary.json'), [summary]);
    const files = [...Object.keys(sums), 'summary.json'];
    moveIntoPlace(workshop, folder, files);
    return { folder, files, summary };
  } finally {
    rmSync(workshop, { recursive: true, force: true });
  }
}

/** Writes pieces of text to a new file; out: its SHA-256. */
function writeFile(path: string, pieces: Iterable<string>): string {
  const digest = createHash('sha256');
  const file = openSync(path, 'wx');
  try {
    for (const piece of pieces) {
      const bytes = Buffer.from(piece, 'utf8');
      digest.update(bytes);
      for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    }
  } finally {
    closeSync(file);
  }
  return digest.digest('hex');
}

/** Renames new files over those of an earlier run, and takes away what this run did not write; all of it, or nothing. */
function moveIntoPlace(workshop: string, folder: string, files: readonly string[]): void {
  const isFile = (name: string) => statSync(join(folder, name), { throwIfNoEntry: false })?.isFile() === true;
  const earlier = FILES_OF_A_RUN.filter(isFile);
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
