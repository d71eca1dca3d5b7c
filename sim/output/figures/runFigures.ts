import type { SkyPicture } from '../../spot/skyPicture.ts';
import { type CivilDay, weatherDays } from '../../statistics/civilHours.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { type DrawnTrial, drawnTrials } from './drawnTrials.ts';
import type { Figure } from './Figure.ts';
import { oddsFigureFiles } from './oddsChart.ts';
import { sendPicture } from './sendPicture.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { TRIAL_FIGURES, trialFigures } from './trialFigures.ts';
import { weatherChart } from './weatherChart.ts';
import { daysOf, weatherNights } from './worstWinter.ts';

/** Every picture of a run. */
export interface RunFigures {
  /** Those of each trial that is drawn. */
  trials: (DrawnTrial & { figures: Figure[] })[];
  /** The year of the weather; undefined where the record holds no day. */
  weather: Figure | undefined;
}

/**
 * Every picture of a run, or of one of many trials those of its decisive ones.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: pictures with the data behind them
 */
export function runFigures(run: RunResult, skies: ReadonlyMap<string, SkyPicture>): RunFigures {
  const { trials, days } = drawnTrials(run, skies);
  return {
    trials: trials.map((drawn) => {
      const own = trialFigures(drawn.id, drawn.trial, drawn.setting);
      return { ...drawn, figures: TRIAL_FIGURES.flatMap((key) => own[key]() ?? []) };
    }),
    weather: weatherFigure(run, days),
  };
}

/**
 * The pictures of a run as files, numbered by trial so that names of any letters stay apart.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: names such as '1-lawn-single-nights.svg', with their figures
 */
export function runFigureFiles(run: RunResult, skies: ReadonlyMap<string, SkyPicture>): FigureFile[] {
  const { trials, weather } = runFigures(run, skies);
  const files = trials.flatMap(({ place, id, trial, setting, figures }) => {
    const name = (key: string) =>
      `${[place, slug(trial.spot), slug(trial.lamp), key].filter((word) => word !== '').join('-')}.svg`;
    const send = sendPicture(id, trial, setting);
    return [
      ...figures.map((figure) => ({ name: name(figure.key), figure })),
      ...(send === undefined ? [] : [{ name: name('to-send'), figure: send }]),
    ];
  });
  const odds = oddsFigureFiles(run.odds?.trials ?? [], run.scenario.site.latitude_deg < 0);
  const shared = weather === undefined ? [] : [{ name: 'weather.svg', figure: weather }];
  return [...files, ...odds, ...shared];
}

/** The year of a run's weather; undefined where the record holds no day. */
export function weatherFigure(run: RunResult, days: readonly CivilDay[]): Figure | undefined {
  const { trials, scenario, weather } = run;
  const light = trials[0]?.light;
  if (light === undefined) return undefined;
  const rows = weatherDays(light, days).map((day, k) => ({ ...day, ...days[k]! }));
  const shown = daysOf(weatherNights(trials, scenario.site.latitude_deg), rows);
  if (shown.length === 0) return undefined;
  const logged = Number.isNaN(light.ghi_W_m2[0] ?? Number.NaN);
  const filled = logged
    ? 'The light was logged on the cell.'
    : weather.filled_hours === 0
      ? 'No hour was filled.'
      : `${weather.filled_hours} hours were filled or stand in; they are hatched.`;
  return weatherChart(
    'run',
    shown,
    light,
    `Light of every hour of ${shown.length} days, a day a column from midnight to midnight, with the coldest and warmest hour of each day beneath. ${filled}`,
  );
}
