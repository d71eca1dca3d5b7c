import { join } from 'node:path';
import type { Scenario } from '../scenario/Scenario.ts';
import type { SkyPicture } from '../spot/skyPicture.ts';
import type { Comparison } from '../trial/Comparison.ts';
import { comparisonFolder } from '../trial/scenarioDifferences.ts';
import type { HourlyTrial, RunResult } from '../trial/Trial.ts';
import { compareJson } from './compareJson.ts';
import { hourRows, hoursCsv } from './hoursCsv.ts';
import { nightRows, nightsCsv } from './nightsCsv.ts';
import { comparePage } from './page/comparePage.ts';
import { reportPage } from './page/reportPage.ts';
import { program } from './program.ts';
import { summaryJson } from './summaryJson.ts';
import { UnfinishedFiles } from './UnfinishedFiles.ts';
import {
  type FileToWrite,
  PARTIAL,
  resultFolder,
  takeAway,
  UNWRITTEN,
  type WrittenResult,
  writeFiles,
} from './writeFiles.ts';

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
const [NIGHTS, HOURS, PAGE, SUMMARY] = ['nights.csv', 'hours.csv', 'report.html', 'summary.json'] as const;
const FILES_OF_A_RUN = [NIGHTS, HOURS, PAGE, SUMMARY];

/**
 * Writes a run's files into `<out>/<name>/`, as a `RunWriter` does that is given all its trials at once.
 *
 * in: run; options
 * out: what was written, and where
 * throws: Error of the disk (no permission, no space)
 */
export function writeRun(run: RunResult<HourlyTrial>, options: WriteOptions): WrittenRun {
  const writer = new RunWriter(run.scenario, run.weather.hours, options);
  try {
    for (const trial of run.trials) writer.add(trial);
    return writer.finish(run, options.skies);
  } finally {
    writer.discard();
  }
}

/**
 * Writes a run's files into `<out>/<name>/`, the nights and hours of each trial when it is added, so that its hours need
 * not be kept: first beside the target under another name, then renamed into place, summary.json last. Where that fails
 * half-way, the files of an earlier run are put back. What is complete of a run that was interrupted goes into
 * `<out>/<name>/partial/` where a whole one stands already.
 */
export class RunWriter {
  private readonly out: string;
  private readonly files: UnfinishedFiles;
  private readonly nightRows: ReturnType<typeof nightRows>;
  private readonly hourRows: ReturnType<typeof hourRows> | undefined;

  /**
   * in: scenario; hours of its record; options; whoever makes one must `discard` it, whatever comes
   * throws: Error of the disk, as all that follows
   */
  constructor(scenario: Scenario, hours: number, options: Omit<WriteOptions, 'skies'>) {
    const { timeZone } = scenario.site;
    this.out = options.out;
    this.nightRows = nightRows(timeZone);
    this.hourRows = options.hours === true || hours <= HOURS_OF_A_YEAR ? hourRows(timeZone) : undefined;
    this.files = new UnfinishedFiles(join(options.out, scenario.name));
    this.begin(NIGHTS, [nightsCsv([], timeZone)]);
    if (this.hourRows) this.begin(HOURS, hoursCsv([], timeZone));
  }

  /** Writes the rows of a trial, the next of the run. */
  add(trial: HourlyTrial): void {
    this.files.append(NIGHTS, this.nightRows(trial));
    for (const piece of this.hourRows?.(trial) ?? []) this.files.append(HOURS, piece);
  }

  /**
   * Writes page and summary, and moves all into place.
   *
   * in: run, of the trials that were added; skies, from the spots that have one, by name
   */
  finish(run: RunResult, skies: WriteOptions['skies'] = new Map()): WrittenRun {
    const name = resultFolder(this.out, run.scenario.name, SUMMARY, run.partial !== undefined);
    const folder = join(this.out, name);
    this.begin(PAGE, [reportPage(run, skies, [...Object.keys(this.files.sums()), SUMMARY])]);
    const summary = summaryJson(run, program(), this.files.sums());
    this.begin(SUMMARY, [summary]);
    const files = Object.keys(this.files.sums());
    this.files.moveInto(folder, FILES_OF_A_RUN);
    // What there was in part is overtaken.
    if (run.partial === undefined) takeAway(join(folder, PARTIAL), FILES_OF_A_RUN);
    return { folder, name, files, summary };
  }

  /** Takes away what was not finished. */
  discard(): void {
    this.files.discard();
  }

  private begin(name: string, pieces: Iterable<string | Uint8Array>): void {
    this.files.begin(name);
    for (const piece of pieces) this.files.append(name, piece);
  }
}

const FILES_OF_A_COMPARISON = ['report.html', 'compare.json'];

/**
 * Writes a comparison's files into `<out>/compare-<name>[+<name>]/`, all of them or none, compare.json last.
 *
 * in: comparison; runs it was made from; out, folder that gets one folder per result; undefined to write
 *   nothing
 * out: what was written, and the folder's name below `out`
 * throws: Error of the disk
 */
export function writeCompare(
  comparison: Comparison,
  runs: readonly RunResult[],
  out: string | undefined,
): WrittenResult {
  const folder = comparisonFolder(comparison.scenarios);
  const json = compareJson(
    comparison,
    program(),
    runs.flatMap(({ odds }) => odds ?? []),
  );
  if (out === undefined) return { ...UNWRITTEN, json };
  const files: FileToWrite[] = [
    { name: 'report.html', pieces: () => [comparePage(comparison, runs, ['compare.json'])] },
    { name: 'compare.json', pieces: () => [json] },
  ];
  writeFiles(join(out, folder), files, FILES_OF_A_COMPARISON);
  return { folder, files: files.map((file) => file.name), json };
}
