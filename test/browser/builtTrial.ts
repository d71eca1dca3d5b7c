import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** A trial of the demo, as text of JSON in which numbers stand to the bit. */
interface BuiltTrial {
  start_ms: number;
  capacitor_V: readonly number[];
  light_W_m2: readonly number[];
  nights: readonly unknown[];
}

/** A trial of the demo as the built program runs it: sources that are run as they stand take packages as they are. */
export function builtTrial(index: number): BuiltTrial {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const code = `
    import { loadScenario, runAll } from './dist/index.js';
    const { trials } = await runAll(loadScenario('scenarios/invented-garden.yaml'), { withChanges: false });
    const { light, year, nights } = trials[${index}];
    console.log(JSON.stringify({
      start_ms: light.start_ms,
      capacitor_V: [...year.columns.capacitorEnd_V],
      light_W_m2: [...light.planeOfArray_W_m2],
      nights,
    }));`;
  const options = { cwd: root, maxBuffer: 1e8, encoding: 'utf8' } as const;
  return JSON.parse(execFileSync(process.execPath, ['--input-type=module', '-e', code], options));
}
