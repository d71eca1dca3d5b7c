import type { SkyPicture } from '../../spot/skyPicture.ts';
import { type CivilDay, civilHours, weatherDays } from '../../statistics/civilHours.ts';
import { decisiveTrials, hasHours } from '../../trial/decisiveTrials.ts';
import type { HourlyTrial, RunResult } from '../../trial/Trial.ts';
import type { Figure } from './Figure.ts';
import { MOST_ODDS_DRAWN, oddsChart } from './oddsChart.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { trialFigures } from './trialFigures.ts';
import { weatherChart } from './weatherChart.ts';
import { daysOf, weatherNights } from './worstWinter.ts';

/** Every picture of a run. */
export interface RunFigures {
  /** Those of each decisive trial that has its hours, in the order of the run: its place there, from 1, and its own id. */
  trials: { place: number; id: string; trial: HourlyTrial; figures: Figure[] }[];
  /** The year of the weather; undefined where the record holds no day. */
  weather: Figure | undefined;
  /** The civil dates of the record, with the hours of each. */
  days: CivilDay[];
}

/**
 * Every picture of a run, or of one of many trials those of its decisive ones.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: pictures with the data behind them
 */
export function runFigures(run: RunResult, skies: ReadonlyMap<string, SkyPicture>): RunFigures {
  const { site } = run.scenario;
  const [first] = run.trials;
  if (first === undefined) return { trials: [], weather: undefined, days: [] };
  const days = civilHours(first.light.start_ms, first.light.count, site.timeZone);
  const trials = decisiveTrials(run)
    .filter(hasHours)
    .map((trial) => {
      const place = run.trials.indexOf(trial) + 1;
      const id = `trial-${place}`;
      return {
        place,
        id,
        trial,
        figures: trialFigures(id, trial, { run, days, sky: skies.get(trial.spot) }),
      };
    });
  return { trials, weather: weatherOf(run, days), days };
}

/**
 * The pictures of a run as files, numbered by trial so that names of any letters stay apart.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: names such as '1-lawn-single-nights.svg', with their figures
 */
export function runFigureFiles(run: RunResult, skies: ReadonlyMap<string, SkyPicture>): FigureFile[] {
  const { trials, weather } = runFigures(run, skies);
  const files = trials.flatMap(({ place, trial, figures }) =>
    figures.map((figure) => {
      const words = [place, slug(trial.spot), slug(trial.lamp), figure.key];
      return { name: `${words.filter((word) => word !== '').join('-')}.svg`, figure };
    }),
  );
  const odds = (run.odds?.trials ?? []).slice(0, MOST_ODDS_DRAWN).map((trial, k) => ({
    name: `odds-${k + 1}-${[trial.spot, trial.lamp].map(slug).filter(Boolean).join('-')}.svg`,
    figure: oddsChart(`odds-${k + 1}`, trial, run.scenario.site.latitude_deg < 0),
  }));
  const shared = weather === undefined ? [] : [{ name: 'weather.svg', figure: weather }];
  return [...files, ...odds, ...shared];
}

function weatherOf(run: RunResult, days: readonly CivilDay[]): Figure | undefined {
  const { trials, scenario, weather } = run;
  const { light } = trials[0]!;
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
