import type { SkyPicture } from '../../spot/skyPicture.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import type { FigureFile } from '../writeFigures.ts';
import { runFigures } from './runFigures.ts';
import { slug } from './slug.ts';

/**
 * The pictures of a run as files, numbered by trial so that names of any letters stay apart.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: names such as '1-lawn-single-nights.svg', with their figures
 */
export function runFigureFiles(run: RunResult, skies: ReadonlyMap<string, SkyPicture>): FigureFile[] {
  const { trials, weather } = runFigures(run, skies);
  const files = trials.flatMap(({ trial, figures }, k) =>
    figures.map((figure) => {
      const words = [k + 1, slug(trial.spot), slug(trial.lamp), figure.key];
      return { name: `${words.filter((word) => word !== '').join('-')}.svg`, figure };
    }),
  );
  return weather === undefined ? files : [...files, { name: 'weather.svg', figure: weather }];
}
