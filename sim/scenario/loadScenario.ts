import { dirname, resolve } from 'node:path';
import { INPUT_LIMITS, readTextFile } from '../tables/TableSource.ts';
import { nameOf, scenarioOf } from './parseScenario.ts';
import type { Scenario } from './Scenario.ts';

/**
 * A scenario from its YAML file, checked, with its parts merged in and every default filled in. The weather it names
 * must be there but is not read.
 *
 * in: path of the file; file, its name in messages (the path by default); among, the folder that the files it names are
 *   relative to (its own by default)
 * out: the scenario
 * throws: FILE_*, YAML_*, SCENARIO_*, LAMP_CUTOFF_ABOVE_REACHABLE; all problems of the file together, by line
 */
export function loadScenario(path: string, file = path, among = dirname(path)): Scenario {
  const { bytes } = readTextFile(path, file, INPUT_LIMITS.scenario_B);
  return scenarioOf({ written: bytes, file, folder: resolve(among), called: nameOf(path) });
}
