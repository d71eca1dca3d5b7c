import type { SkyPicture } from '../../spot/skyPicture.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { escapeText, isolated } from '../figures/element.ts';
import { runFigures } from '../figures/runFigures.ts';
import { program } from '../program.ts';
import { promiseWords } from '../words.ts';
import { benchPart } from './benchPart.ts';
import { figurePart } from './figurePart.ts';
import { groundsPart } from './groundsPart.ts';
import { hourlyPack } from './hourlyPack.ts';
import { nameMarkup } from './nameMarkup.ts';
import { overviewPart } from './overviewPart.ts';
import { pageShell } from './pageShell.ts';
import { trialPart } from './trialPart.ts';

/**
 * The page of a run: every trial with its verdict, pictures and what it rests on, in one HTML file.
 *
 * in: run; skies, the sky from the spots that have one, by name; files, names of those written beside it
 * out: HTML text
 */
export function reportPage(
  run: RunResult,
  skies: ReadonlyMap<string, SkyPicture>,
  files: readonly string[],
): string {
  const { scenario } = run;
  const figures = runFigures(run, skies);
  const body = [
    '<header class="top">',
    `<p class="kind">Nights of a year, lit and dark</p><h1>${nameMarkup(scenario.name)}</h1>`,
    `<p class="promise">${escapeText(promiseWords(scenario.promise))}</p>`,
    '</header>',
    '<main>',
    overviewPart(figures.trials, scenario.site.latitude_deg),
    ...figures.trials.map(({ id, trial, figures: own }) => trialPart(id, trial, own, run)),
    figures.weather === undefined
      ? ''
      : `<section class="shared" aria-label="Weather">${figurePart('run', figures.weather)}</section>`,
    ...scenario.lamps.map((lamp, k) => benchPart(`bench-${k + 1}`, benchSheet(lamp), lamp.settled)),
    groundsPart(run, program(), files),
    '</main>',
  ].join('\n');
  return pageShell({
    title: `${isolated(scenario.name)}: nights lit and dark`,
    body,
    hours: hourlyPack(
      run,
      figures.days,
      figures.trials.map(({ id }) => id),
    ),
  });
}
