import { join } from 'node:path';
import type { Comparison } from '../trial/Comparison.ts';
import { compareJson } from './compareJson.ts';
import { program } from './program.ts';
import { type FileToWrite, writeFiles } from './writeFiles.ts';

export interface WrittenComparison {
  /** The comparison's own folder. */
  folder: string;
  /** Names of the files in it, compare.json last. */
  files: string[];
  /** The text of compare.json, byte for byte. */
  json: string;
}

const FILES_OF_A_COMPARISON = ['compare.json'];

/** The name of a comparison's folder: 'compare-', then the names of its scenarios. */
export function compareFolder(scenarios: readonly { name: string }[]): string {
  return `compare-${scenarios.map((scenario) => scenario.name).join('+')}`;
}

/**
 * Writes a comparison's files into `<out>/compare-<name>[+<name>]/`, all of them or none, compare.json last.
 *
 * in: comparison; out, folder that gets one folder per result
 * throws: Error of the disk
 */
export function writeCompare(comparison: Comparison, out: string): WrittenComparison {
  const folder = join(out, compareFolder(comparison.scenarios));
  const json = compareJson(comparison, program());
  const files: FileToWrite[] = [{ name: 'compare.json', pieces: () => [json] }];
  writeFiles(folder, files, FILES_OF_A_COMPARISON);
  return { folder, files: files.map((file) => file.name), json };
}
