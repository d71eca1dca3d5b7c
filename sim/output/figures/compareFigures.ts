import { inSeason } from '../../statistics/inSeason.ts';
import type { Comparison } from '../../trial/Comparison.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { comparedName } from '../comparedName.ts';
import { worstWinter } from '../worstWinter.ts';
import type { FigureFile } from '../writeFigures.ts';
import { comparedLightChart } from './comparedLightChart.ts';
import { comparedNightsChart, type NightsRow } from './comparedNightsChart.ts';
import type { Figure } from './Figure.ts';
import { skyChart } from './skyChart.ts';
import { slug } from './slug.ts';

/** The pictures of a comparison. */
export interface CompareFigures {
  light: Figure;
  /** Undefined where no run holds a night. */
  nights: Figure | undefined;
  skies: Figure[];
}

/**
 * The pictures of a comparison: light by month, nights side by side, the sky from each spot with something around it.
 *
 * in: comparison; runs it was made from
 * out: pictures with the data behind them
 */
export function compareFigures(comparison: Comparison, runs: readonly RunResult[]): CompareFigures {
  const rows = runs.flatMap((run) => nightsRows(comparison, run));
  return {
    light: comparedLightChart(comparison),
    nights: rows.some(({ nights }) => nights.length > 0) ? comparedNightsChart(rows) : undefined,
    skies: comparison.spots.flatMap((spot, k) => {
      if (spot.picture === undefined || !spot.hasSurroundings) return [];
      const name = comparedName(comparison, spot.scenario, spot.spot);
      const summary = `The sky as seen from the spot, bearing across and elevation up: what is hidden, the sun's way, and hours of sun a day by month, above the horizon and in sight.`;
      return [skyChart(`spot-${k + 1}`, name, spot.picture, comparison.southern, summary)];
    }),
  };
}

/**
 * The same pictures as files.
 *
 * in: comparison; runs it was made from
 * out: names such as 'light.svg', with their figures
 */
export function compareFigureFiles(comparison: Comparison, runs: readonly RunResult[]): FigureFile[] {
  const { light, nights, skies } = compareFigures(comparison, runs);
  return [
    { name: 'light.svg', figure: light },
    ...(nights === undefined ? [] : [{ name: 'nights.svg', figure: nights }]),
    ...skies.map((figure, k) => ({ name: `${k + 1}-${slug(figure.title)}.svg`, figure })),
  ];
}

function nightsRows(comparison: Comparison, run: RunResult): NightsRow[] {
  return run.trials.map((trial) => {
    const worst = worstWinter(trial);
    const winter = worst?.winter ?? '';
    const nights = trial.nights.filter((row) => row.winter === winter);
    return {
      name: `${comparedName(comparison, run.scenario.name, trial.lamp)} on ${trial.spot}`,
      nights: inSeason(winter, nights, run.scenario.site.latitude_deg),
      promisedNights: worst?.nights ?? 0,
      failedNights: worst?.failedNights ?? 0,
    };
  });
}
