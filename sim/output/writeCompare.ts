import { join } from 'node:path';
import type { Comparison } from '../trial/Comparison.ts';
import type { RunResult } from '../trial/RunResult.ts';
import { compareJson } from './compareJson.ts';
import { comparePage } from './page/comparePage.ts';
import { program } from './program.ts';
import { type FileToWrite, writeFiles } from './writeFiles.ts';

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
