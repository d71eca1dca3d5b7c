import type { NightRow } from '../../night/nightLedger.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import { inSeason } from '../../statistics/winterStatistics.ts';
import type { JudgedTrial } from '../../trial/Trial.ts';

/** What the pictures of a trial show: its worst winter, that winter's name ('' where there is none), and its nights. */
interface WorstWinter {
  worst: WinterStatistics | undefined;
  winter: string;
  /** In the order of the season. */
  nights: readonly NightRow[];
}

/**
 * The winter that the pictures of a trial show.
 *
 * in: trial; latitude_deg, of the site, north positive
 */
export function worstWinter(trial: JudgedTrial, latitude_deg: number): WorstWinter {
  const { worst } = overWinters(trial.statistics.winters);
  const winter = worst?.winter ?? '';
  return { worst, winter, nights: winterNights(trial, winter, latitude_deg) };
}

/** The nights of a trial's winter, in the order of the season. */
function winterNights({ nights }: JudgedTrial, winter: string, latitude_deg: number): readonly NightRow[] {
  const own = nights.filter((row) => row.winter === winter);
  return inSeason(winter, own, latitude_deg);
}

/** The nights, of a run's first trial, over which its weather is shown: those of the worst winter of any trial. */
export function weatherNights(trials: readonly JudgedTrial[], latitude_deg: number): readonly NightRow[] {
  const { worst } = overWinters(trials.flatMap((trial) => trial.statistics.winters));
  return winterNights(trials[0]!, worst?.winter ?? '', latitude_deg);
}

/** The days on which nights begin, in the order of the nights. */
export function daysOf<Day extends { date: string }>(
  nights: readonly NightRow[],
  days: readonly Day[],
): Day[] {
  const byDate = new Map(days.map((day) => [day.date, day]));
  return nights.flatMap(({ night }) => byDate.get(night) ?? []);
}
