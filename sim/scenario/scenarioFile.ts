import { basename, isAbsolute, resolve, win32 } from 'node:path';
import { InputProblem } from '../common/InputProblem.ts';
import { type NamedBytes, readTextFile } from '../tables/TableSource.ts';

/** The name a file may have in results: as the scenario gives it, or its last part where that is absolute. */
export function publicName(file: string): string {
  if (win32.isAbsolute(file) && !isAbsolute(file)) return win32.basename(file);
  return isAbsolute(file) ? basename(file) : file;
}

/**
 * A file that a scenario names, read from the disk.
 *
 * in: folder, absolute, the scenario lies in; file, as the scenario gives it
 * out: bytes under the name that results may show
 * throws: FILE_MISSING, FILE_UNREADABLE
 */
export function readScenarioFile(scenario: { folder: string }, file: string): NamedBytes {
  return readTextFile(resolve(scenario.folder, file), publicName(file));
}

/** The same; undefined where it cannot be read, which the check of the whole scenario says. */
export function scenarioFileIfThere(scenario: { folder: string }, file: string): NamedBytes | undefined {
  try {
    return readScenarioFile(scenario, file);
  } catch (error) {
    if (error instanceof InputProblem) return undefined;
    throw error;
  }
}
