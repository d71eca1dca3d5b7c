import { join } from 'node:path';
import type { SkyPicture } from '../spot/skyPicture.ts';
import type { Comparison } from '../trial/Comparison.ts';
import type { RunResult } from '../trial/Trial.ts';
import { compareJson } from './compareJson.ts';
import { hoursCsv } from './hoursCsv.ts';
import { nightsCsv } from './nightsCsv.ts';
import { comparePage } from './page/comparePage.ts';
import { reportPage } from './page/reportPage.ts';
import { program } from './program.ts';
import { isOfPart, summaryJson } from './summaryJson.ts';
import { type FileToWrite, fileText, takeAway, writeFiles } from './writeFiles.ts';

export interface WriteOptions {
  /** Folder that gets one folder per scenario. */
  out: string;
  /** Write hours.csv however many years the record holds; otherwise only for one year or less. */
  hours?: boolean;
  /** The sky from the spots that have one, by name, for the page. */
  skies?: ReadonlyMap<string, SkyPicture>;
}

export interface WrittenRun {
  /** The run's own folder, and its name below that of all. */
  folder: string;
  name: string;
  /** Names of the files in it that this run wrote, summary.json last. */
  files: string[];
  /** The text of summary.json, byte for byte. */
  summary: string;
}

const HOURS_OF_A_YEAR = 8784;
/** Folder within a run's own, for a part of it. */
const PARTIAL = 'partial';
const SUMMARY = 'summary.json';
const FILES_OF_A_RUN = ['nights.csv', 'hours.csv', 'report.html', SUMMARY];

/**
 * Writes a run's files into `<out>/<name>/`: first beside the target under another name, then renamed into place,
 * summary.json last. Where that fails half-way, the files of an earlier run are put back. What is complete of a run that
 * was interrupted goes into `<out>/<name>/partial/` where a whole one stands already.
 *
 * in: run; options
 * out: what was written, and where
 * throws: Error of the disk (no permission, no space)
 */
export function writeRun(run: RunResult, options: WriteOptions): WrittenRun {
  const name = folderName(run, options.out);
  const folder = join(options.out, name);
  const { timeZone } = run.scenario.site;
  const withHours = options.hours === true || run.weather.hours <= HOURS_OF_A_YEAR;
  let summary = '';
  const files: FileToWrite[] = [
    { name: 'nights.csv', pieces: () => [nightsCsv(run.trials, timeZone)] },
    ...(withHours ? [{ name: 'hours.csv', pieces: () => hoursCsv(run.trials, timeZone) }] : []),
    {
      name: 'report.html',
      pieces: (sums) => [reportPage(run, options.skies ?? new Map(), [...Object.keys(sums), SUMMARY])],
    },
    {
      name: SUMMARY,
      pieces: (sums) => {
        summary = summaryJson(run, program(), sums);
        return [summary];
      },
    },
  ];
  writeFiles(folder, files, FILES_OF_A_RUN);
  // What there was in part is overtaken.
  if (run.partial === undefined) takeAway(join(folder, PARTIAL), FILES_OF_A_RUN);
  return { folder, name, files: files.map((file) => file.name), summary };
}

/** A part of a run never takes the place of a whole one: it goes into a folder within. */
function folderName({ scenario, partial }: RunResult, out: string): string {
  const earlier = partial && fileText(join(out, scenario.name, SUMMARY));
  return earlier === undefined || isOfPart(earlier) ? scenario.name : join(scenario.name, PARTIAL);
}

export interface WrittenComparison {
  /** The comparison's own folder: 'compare-', then the names of its scenarios. */
  folder: string;
  /** Names of the files in it, compare.json last. */
  files: string[];
  /** The text of compare.json, byte for byte. */
  json: string;
}

const FILES_OF_A_COMPARISON = ['report.html', 'compare.json'];

/**
 * Writes a comparison's files into `<out>/compare-<name>[+<name>]/`, all of them or none, compare.json last.
 *
 * in: comparison; runs it was made from; out, folder that gets one folder per result
 * out: what was written, and the folder's name below `out`
 * throws: Error of the disk
 */
export function writeCompare(
  comparison: Comparison,
  runs: readonly RunResult[],
  out: string,
): WrittenComparison {
  const folder = `compare-${comparison.scenarios.map((scenario) => scenario.name).join('+')}`;
  const json = compareJson(comparison, program());
  const files: FileToWrite[] = [
    { name: 'report.html', pieces: () => [comparePage(comparison, runs, ['compare.json'])] },
    { name: 'compare.json', pieces: () => [json] },
  ];
  writeFiles(join(out, folder), files, FILES_OF_A_COMPARISON);
  return { folder, files: files.map((file) => file.name), json };
}
