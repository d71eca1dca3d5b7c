import { fixed } from '../../common/csvText.ts';
import type { PromiseSection } from '../../lamp/schedule/schema.ts';
import type { NightRow } from '../../night/nightLedger.ts';
import { capacitorDays } from '../../statistics/civilHours.ts';
import { energyMonths } from '../../statistics/energyStatistics.ts';
import { thresholdMonths } from '../../statistics/monthStatistics.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { WinterOdds } from '../../statistics/WinterOdds.ts';
import { inSeason } from '../../statistics/winterStatistics.ts';
import type { Site } from '../../sun/Site.ts';
import type { HourlyTrial, TimedTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { oddsWords } from '../oddsWords.ts';
import { capital, dimAndOut, dimOrOut, plural, promisedLight, spokenDates } from '../words.ts';
import { capacitorChart } from './capacitorChart.ts';
import { changeChart } from './changeChart.ts';
import { isolated } from './element.ts';
import { energyChart } from './energyChart.ts';
import type { Figure } from './Figure.ts';
import { fortnightChart } from './fortnightChart.ts';
import { fortnightHours } from './fortnightHours.ts';
import { nightChart } from './nightChart.ts';
import { nightColumns } from './nightColumns.ts';
import { skyChart } from './skyChart.ts';
import { thresholdChart } from './thresholdChart.ts';
import { winterCountsChart } from './winterCountsChart.ts';
import { wintersChart } from './wintersChart.ts';
import { daysOf, worstWinter } from './worstWinter.ts';

/** The pictures of a trial, in the order in which they are named and numbered. */
export const TRIAL_FIGURES = [
  'winters',
  'winter-counts',
  'nights',
  'changes',
  'capacitor',
  'fortnight',
  'brightness',
  'energy',
  'sky',
] as const;

export type TrialFigure = (typeof TRIAL_FIGURES)[number];

/** What draws each picture of a trial when it is asked for; undefined where there are no data for it. */
export type TrialFigures = Readonly<Record<TrialFigure, () => Figure | undefined>>;

/**
 * The pictures of a trial, of its worst winter, none of them drawn yet.
 *
 * in: id, the trial's own; trial; setting
 */
export function trialFigures(id: string, trial: HourlyTrial, setting: BlockSetting): TrialFigures {
  const { days, sky, site, promise, currency, lamp } = setting;
  const { worst, winter, nights: rows } = worstWinter(trial, site.latitude_deg);
  const name = nameOf(trial);
  const months = new Set(rows.map((row) => row.night.slice(0, 7)));
  const dated = <Month extends { month: string }>(all: Month[]) =>
    inSeason(
      winter,
      all.filter(({ month }) => months.has(month)).map((month) => ({ ...month, night: `${month.month}-01` })),
      site.latitude_deg,
    );
  const say = summaries(trial, worst, promise);
  const { winters, odds } = trial.statistics;
  const southern = site.latitude_deg < 0;
  return {
    winters: () => odds && wintersChart(id, name, trial.nights, winters, southern, wintersSummary(odds)),
    'winter-counts': () =>
      odds && winterCountsChart(id, name, overWinters(winters).winters, odds, `${capital(oddsWords(odds))}.`),
    nights: () => nightFigure(id, trial, site),
    changes: () =>
      trial.changes.length === 0
        ? undefined
        : changeChart(id, name, trial.changes, { summary: say.changes, currency }),
    capacitor: () => {
      const shown = capacitorDays(trial.year.columns, daysOf(rows, days));
      const byDate = new Map<string, NightRow>(rows.map((row) => [row.night, row]));
      return shown.length === 0 ? undefined : capacitorChart(id, name, shown, byDate, lamp, say.capacitor);
    },
    fortnight: () => {
      const hours = worst?.darkestFortnight && fortnightHours(trial, worst.darkestFortnight, winter, site);
      return hours && fortnightChart(id, name, hours, lamp, say.fortnight);
    },
    brightness: () => {
      const means = dated(thresholdMonths(rows));
      return means.length === 0
        ? undefined
        : thresholdChart(id, name, means, promise.least_lumen, say.brightness);
    },
    energy: () => {
      const { columns } = trial.year;
      const sums = dated(energyMonths(columns, trial.light.planeOfArray_W_m2, lamp.area_m2, days));
      return sums.length === 0 ? undefined : energyChart(id, name, sums, say.energy);
    },
    sky: () => sky && skyChart(id, trial.spot, sky, southern),
  };
}

/**
 * The picture of the nights of a trial's worst winter; undefined where there are none.
 *
 * in: id, the trial's own; trial; site
 */
export function nightFigure(id: string, trial: TimedTrial, site: Site): Figure | undefined {
  const { worst, winter } = worstWinter(trial, site.latitude_deg);
  const columns = nightColumns(trial, winter, site);
  if (columns.length === 0) return undefined;
  const summary = nightsSummary(worst, trial.statistics.winters.length > 1);
  return nightChart(id, nameOf(trial), columns, summary);
}

function nameOf({ lamp, spot }: Pick<TimedTrial, 'lamp' | 'spot'>): string {
  return `${isolated(lamp)} on ${isolated(spot)}`;
}

const J_PER_WH = 3600;

/**
 * What each picture of a trial says, in words, for whoever cannot see it.
 *
 * in: trial; worst, the winter shown (undefined where there is none); promise
 * out: a sentence or two for each picture, from the statistics
 */
function summaries(
  trial: HourlyTrial,
  worst: WinterStatistics | undefined,
  promise: PromiseSection,
): Record<'changes' | 'capacitor' | 'fortnight' | 'brightness' | 'energy', string> {
  const { energy } = trial.statistics;
  const wh = (joule: number) => `${fixed(joule / J_PER_WH, 1)} Wh`;
  const best = trial.changes[0];
  const fortnight = worst?.darkestFortnight;
  return {
    changes:
      best === undefined
        ? ''
        : `${trial.changes.length} single changes, each computed by running the whole record again. Fewest failed nights with ${isolated(best.change)} (${best.detail}): ${best.failedNights} instead of ${best.failedNightsBefore}.`,
    capacitor: `Daily band of the capacitor's voltage over the winter shown, with the highest voltage the cell can charge to on each day, the cut-off and the rated voltage.${
      fortnight === undefined || Number.isNaN(fortnight.lowestCapacitor_V)
        ? ''
        : ` In the darkest fortnight it falls to ${fixed(fortnight.lowestCapacitor_V, 2)} V.`
    }`,
    fortnight:
      fortnight === undefined
        ? ''
        : `${spokenDates(fortnight.from, fortnight.to)}, hour by hour: ${fixed(fortnight.short_h, 1)} h short, ${fortnight.failedNights} failed nights of 14, ${fixed(fortnight.lightOnCell_Wh_m2, 0)} Wh/m2 on the cell in all.`,
    brightness: `Mean hours a night, month by month: at or above the promised ${promisedLight(promise.least_lumen)}, above half, and above a fifth of the light at switching on.`,
    energy: `Over the whole record the cell could have given ${wh(energy.cellBest_J)} at its best point. Not used: ${wh(energy.unharvestedCapacitorLow_J)} with the capacitor too low, ${wh(energy.unharvestedCapacitorHigh_J)} with it already full. It gave ${wh(energy.cell_J)}: ${wh(energy.led_J)} to the LED, ${wh(energy.driverLoss_J)} lost in the driver, ${wh(energy.diodeLoss_J)} in the blocking diode, ${wh(energy.leakage_J)} to leakage, ${wh(energy.delayedBranchLoss_J)} in the delayed branch.`,
  };
}

function wintersSummary({ winters, failedNights, worstWinter, bestWinter }: WinterOdds): string {
  return `The nights of every winter, a winter a row. Failed nights: ${failedNights.best} in the best of ${winters} winters, ${bestWinter}, ${failedNights.worst} in the worst, ${worstWinter}.`;
}

function nightsSummary(worst: WinterStatistics | undefined, withYear: boolean): string {
  if (worst === undefined || worst.nights === 0) return 'No night in which anything is promised.';
  const { nights, failedNights, short_h, promised_h, longestSpell, worstNight } = worst;
  const begin = `${withYear ? `Of the winters the worst, ${worst.winter}: ` : ''}${nights} nights with a promise: ${failedNights} failed, ${fixed(short_h, 1)} h short of ${fixed(promised_h, 0)} h promised`;
  if (failedNights === 0) return `${begin}.`;
  const spell =
    longestSpell === undefined
      ? ''
      : ` Failed ${longestSpell.nights} ${plural(longestSpell.nights, 'night')} in a row, ${spokenDates(longestSpell.from, longestSpell.to, withYear)}.`;
  const night =
    worstNight === undefined
      ? ''
      : ` Worst night ${spokenDates(worstNight.night, worstNight.night, withYear)}, ${fixed(worstNight.short_h, 1)} h short.`;
  return `${begin}, ${dimAndOut(worst)}. Failed nights: ${dimOrOut(worst)}.${spell}${night}`;
}
