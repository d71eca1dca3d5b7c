import { lifeRating } from '../../ageing/capacitorWear.ts';
import type { LifeSweep, ScenarioLives, TrialLife } from '../../ageing/ScenarioLives.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import type { Figure } from './Figure.ts';
import { lifeCharts } from './lifeCharts.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { sweepChart } from './sweepChart.ts';

/** Trials that are drawn, at most. */
const MOST_DRAWN = 12;

/** The pictures of lives: of each trial, the first of many, and of each sweep. */
export interface LifeFigures {
  trials: ReadonlyMap<TrialLife, Figure[]>;
  sweeps: ReadonlyMap<LifeSweep, Figure>;
}

/**
 * The pictures of lives and sweeps.
 *
 * in: lives; sweeps; scenario of both
 */
export function lifeFigures(
  { trials, winters }: ScenarioLives,
  sweeps: readonly LifeSweep[],
  scenario: Pick<Scenario, 'lamps'>,
): LifeFigures {
  const drawn = trials.slice(0, MOST_DRAWN).map((trial, k) => {
    const lamp = scenario.lamps.find(({ name }) => name === trial.lamp)!;
    return [
      trial,
      lifeCharts(`life-${k + 1}`, trial, lifeRating(lamp.section.capacitor).capacitanceLeft, winters > 1),
    ] as const;
  });
  // Of one possible value there is no curve.
  const curves = sweeps.flatMap((sweep, k) => {
    const can = sweep.variants.filter(({ cannotBe }) => cannotBe === undefined);
    return can.length > 1 ? [[sweep, sweepChart(`sweep-${k + 1}`, sweep)] as const] : [];
  });
  return { trials: new Map(drawn), sweeps: new Map(curves) };
}

/**
 * The same pictures as files.
 *
 * in: as `lifeFigures`
 * out: names such as '2-life-nights-double-lawn.svg', with their figures
 */
export function lifeFigureFiles(
  lives: ScenarioLives,
  sweeps: readonly LifeSweep[],
  scenario: Pick<Scenario, 'lamps'>,
): FigureFile[] {
  const figures = lifeFigures(lives, sweeps, scenario);
  const named = [...figures.trials, ...[...figures.sweeps].map(([of, figure]) => [of, [figure]] as const)];
  return named.flatMap(([{ lamp, spot }, drawn], k) =>
    drawn.map((figure) => ({
      name: [k + 1, figure.key, slug(lamp), slug(spot)]
        .filter((word) => word !== '')
        .join('-')
        .concat('.svg'),
      figure,
    })),
  );
}
