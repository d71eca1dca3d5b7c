import { fileURLToPath } from 'node:url';
import { runFigureFiles } from '../../sim/output/figures/runFigures.ts';
import { standaloneSvg } from '../../sim/output/figures/standaloneSvg.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { runAll } from '../../sim/trial/runAll.ts';

/** Where the picture of the README stands. */
export const PICTURE = new URL('../../scenarios/invented-garden.svg', import.meta.url);

/** The year of nights of the demo's lamp with one capacitor on the lawn, as SVG: the picture that the page gives to send. */
export async function readmePicture(): Promise<string> {
  const scenario = loadScenario(
    fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url)),
  );
  const run = await runAll(scenario, { withChanges: false });
  const file = runFigureFiles(run, new Map()).find(({ name }) => name === '1-lawn-single-to-send.svg');
  return standaloneSvg(file!.figure);
}
