import { loadScenario } from '../scenario/loadScenario.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type Io, pathFrom, STANDARD } from './Io.ts';

/**
 * A scenario that was typed; '-' for one on standard input, which names its files from where the user stands.
 *
 * in: file, as typed; io
 * throws: as `loadScenario`
 */
export function scenarioFrom(file: string, io: Io): Scenario {
  const path = pathFrom(io, file);
  return file === STANDARD ? loadScenario(path, file, io.cwd) : loadScenario(path, file);
}
