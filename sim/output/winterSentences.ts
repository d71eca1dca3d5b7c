import { least } from 'd3-array';
import { fixed } from '../common/csvText.ts';
import { MONTH_NAMES } from '../common/time.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics, WinterStatistics } from '../statistics/TrialStatistics.ts';
import type { JudgedTrial } from '../trial/Trial.ts';
import { SHORT_CAUSES } from '../year/NightTotals.ts';
import type { BlockSetting } from './BlockSetting.ts';
import { civilStamp } from './civilStamp.ts';
import { oddsWords } from './oddsWords.ts';
import { CAUSE_NAMES, CAUSE_WORDS, dimAndOut, dimOrOut, plural, spokenDates } from './words.ts';

/**
 * A trial in words: its verdict, to be put after its name (' keeps its promise every night (365 of 365).', beginning with
 * the blank or colon that parts it from the name), what its worst winter came to, and why: that, and the light on the cell.
 *
 * in: trial; site; beside, the trials of the same lamp, this one among them; nameOf, how the name of another spot stands
 *   in a sentence
 * out: a sentence or two each; '' of winter and why where nothing is known
 */
export function verdictWords(
  trial: JudgedTrial,
  { site, beside }: Pick<BlockSetting, 'site' | 'beside'>,
  nameOf = (name: string) => name,
): Record<'headline' | 'winter' | 'why', string> {
  const { winters, odds } = trial.statistics;
  const { worst } = overWinters(winters);
  const sentences =
    worst === undefined ? [] : winterSentences(worst, trial, civilStamp(site.timeZone), winters.length > 1);
  const worstOf =
    odds === undefined || worst === undefined || worst.failedNights === 0
      ? []
      : [`Worst winter ${worst.winter}, ${countedNights(worst)}.`];
  const light = lightSentence(trial, beside, site.latitude_deg < 0, nameOf);
  const winter = [...worstOf, ...sentences, ...snowSentence(trial)];
  return {
    headline: headline(trial, worst),
    winter: winter.join(' '),
    why: [...winter, light].join(' '),
  };
}

/** How many nights of a winter failed, of how many, and how. */
function countedNights(winter: WinterStatistics): string {
  const how = winter.failedNights === 0 ? '' : `: ${dimOrOut(winter)}`;
  return `${winter.failedNights} of ${winter.nights} nights${how}`;
}

function headline(trial: JudgedTrial, worst: WinterStatistics | undefined): string {
  const { verdict, winters, odds } = trial.statistics;
  if (odds !== undefined) return `: ${oddsWords(odds)}${darkOnly(winters)}.`;
  const counted = worst === undefined ? '' : countedNights(worst);
  switch (verdict) {
    case 'kept':
      return ` keeps its promise every night (${worst?.nights ?? 0} of ${worst?.nights ?? 0}${darkOnly(winters)}).`;
    case 'broken':
      return ` breaks its promise on ${counted}${darkOnly(winters)}.`;
    case 'nothing-promised':
      return ': no night in this record in which anything is promised.';
    case 'no-whole-winter': {
      const part =
        worst === undefined || worst.nights === 0
          ? ''
          : ` In the part there is, ${worst.failedNights} of ${worst.nights} nights failed${worst.failedNights === 0 ? '' : `: ${dimOrOut(worst)}`}.`;
      return `: no verdict, the record holds no whole winter, nor the dark months of one.${part}`;
    }
  }
}

/** What must be said of winters of which the record holds no more than the dark months. */
function darkOnly(winters: readonly WinterStatistics[]): string {
  const dark = winters.filter((winter) => winter.extent === 'dark-months');
  if (dark.length === 0) return '';
  if (dark.length === winters.filter((winter) => winter.complete).length) return ', of the dark months only';
  return `, ${dark.map(({ winter }) => winter).join(', ')} of the dark months only`;
}

/**
 * What a winter came to, in sentences: how short of the promise, and why it was out, the longest spell, the worst night and its cause, the
 * closest call; none where nothing was promised. civil writes an instant as civil time, withYear has dates name their year.
 */
function winterSentences(
  winter: WinterStatistics,
  trial: JudgedTrial,
  civil: (ms: number) => string,
  withYear: boolean,
): string[] {
  if (winter.nights === 0) return [];
  const dates = (from: string, to = from) => spokenDates(from, to, withYear);
  if (winter.failedNights === 0)
    return Number.isNaN(winter.smallestReserve_J) ? [] : [closestCall(winter, dates)];
  const causes = (['snow', ...SHORT_CAUSES] as const)
    .filter((cause) => cause !== 'too-dim' && winter.causes[cause] !== undefined)
    .map((cause) => `${CAUSE_NAMES[cause]} on ${winter.causes[cause]}`)
    .join(', ');
  const sentences = [
    `Short by ${fixed(winter.short_h, 1)} h of the ${fixed(winter.promised_h, 0)} h promised, ` +
      `${dimAndOut(winter)}${causes === '' ? '' : ` (${causes})`}.`,
  ];
  const { longestSpell, darkestFortnight } = winter;
  if (longestSpell !== undefined && longestSpell.nights > 1) {
    const recovery = winter.recoveryNights;
    const recovered =
      recovery === undefined || recovery === 0
        ? ''
        : `, then ${recovery} ${plural(recovery, 'night')} to recover`;
    sentences.push(
      `Failed ${longestSpell.nights} nights in a row, ${dates(longestSpell.from, longestSpell.to)}${recovered}.`,
    );
  }
  if (darkestFortnight !== undefined && winter.failedNights > 1) {
    const failed = `${darkestFortnight.failedNights} of 14 nights failed`;
    sentences.push(
      `Darkest fortnight ${dates(darkestFortnight.from, darkestFortnight.to)}: ${failed}, ` +
        `${fixed(darkestFortnight.short_h, 1)} h short.`,
    );
  }
  const worst = worstNightSentence(winter, trial, civil, dates);
  return worst === '' ? sentences : [...sentences, worst];
}

/** What snow on the lid made of the failed nights. */
function snowSentence({ snow }: JudgedTrial): string[] {
  if (snow === undefined) return [];
  const { failedNights, bySnow, brushedFailedNights } = snow;
  const left = brushedFailedNights === 0 ? 'none' : String(brushedFailedNights);
  return [`Snow on the lid: ${bySnow} of ${failedNights} failed nights; brushed off: ${left}.`];
}

function worstNightSentence(
  winter: WinterStatistics,
  trial: JudgedTrial,
  civil: (ms: number) => string,
  dates: (from: string) => string,
): string {
  const { worstNight } = winter;
  const row = trial.nights.find((n) => n.night === worstNight?.night && n.winter === winter.winter);
  if (worstNight === undefined || row === undefined) return '';
  const clock = civil(row.firstShort_ms).slice(11, 16);
  const from = clock === '' ? '' : `short from ${clock}, `;
  const why = row.cause === 'too-dim' ? '' : `; ${CAUSE_WORDS[row.cause]}`;
  return (
    `Worst night ${dates(worstNight.night)}: ${from}${fixed(worstNight.short_h, 1)} h, ` +
    `${dimAndOut(worstNight)}${why}.`
  );
}

function closestCall(winter: WinterStatistics, dates: (from: string) => string): string {
  const reserve_J = winter.smallestReserve_J;
  const side = reserve_J < 0 ? 'below' : 'above';
  return (
    `Least energy left in the morning: ${fixed(Math.abs(reserve_J), 0)} J ${side} the cut-off, after the night of ` +
    `${dates(winter.smallestReserveNight)}.`
  );
}

/**
 * Why a spot is what it is: light on the cell and capacitor at dusk in the darkest month, beside those of the same lamp in
 * the spot with most light; '' where no month is known.
 */
function lightSentence(
  trial: JudgedTrial,
  beside: BlockSetting['beside'],
  southern: boolean,
  nameOf: (name: string) => string,
): string {
  const month = darkestMonth(trial, southern);
  if (month === undefined) return '';
  const year = trial.statistics.odds === undefined ? '' : ` ${month.month.slice(0, 4)}`;
  const name = `${MONTH_NAMES[Number(month.month.slice(5, 7)) - 1]!}${year}`;
  const here = `In ${name} the cell gets ${wattHours(month)} Wh/m2 a day`;
  let best = month;
  let bestSpot = trial.spot;
  for (const other of beside) {
    const same = other.statistics.months.find((candidate) => candidate.month === month.month);
    if (same === undefined) continue;
    if (same.lightOnCell_Wh_m2_day > best.lightOnCell_Wh_m2_day) {
      best = same;
      bestSpot = other.spot;
    }
  }
  if (Number.isNaN(month.capacitorDusk_V)) return `${here}.`;
  const dusk = `the capacitor stands at ${fixed(month.capacitorDusk_V, 2)} V at dusk on average`;
  if (bestSpot === trial.spot) return `${here}, and ${dusk}.`;
  const share_percent = (100 * month.lightOnCell_Wh_m2_day) / best.lightOnCell_Wh_m2_day;
  return (
    `${here}, ${fixed(share_percent, 0)} percent of the ${wattHours(best)} on ${nameOf(bestSpot)}; ${dusk}, ` +
    `on ${nameOf(bestSpot)} at ${fixed(best.capacitorDusk_V, 2)} V.`
  );
}

/**
 * The light on the cell of several trials in the darkest month of each spot, as a sentence; '' where none is known.
 *
 * in: trials; southern, whether that month is June
 */
export function darkestLightSentence(trials: readonly JudgedTrial[], southern: boolean): string {
  const spots = new Map<string, MonthStatistics>();
  for (const trial of trials) {
    const month = darkestMonth(trial, southern);
    if (month !== undefined && !spots.has(trial.spot)) spots.set(trial.spot, month);
  }
  const months = new Set([...spots.values()].map(({ month }) => month));
  const [first] = months;
  if (first === undefined) return '';
  const several = trials.some(({ statistics }) => statistics.odds !== undefined);
  const named = (month: string) =>
    `${MONTH_NAMES[Number(month.slice(5, 7)) - 1]!}${several ? ` ${month.slice(0, 4)}` : ''}`;
  const words = [...spots].map(([spot, month]) =>
    months.size === 1 ? `${spot} ${wattHours(month)}` : `${spot} ${wattHours(month)} (${named(month.month)})`,
  );
  const when =
    months.size > 1 ? 'the darkest month' : `${named(first)}${several ? ', the darkest on file' : ''}`;
  return `Light on the cell in ${when}, Wh/m2 a day: ${words.join(', ')}.`;
}

function wattHours(month: MonthStatistics): string {
  return fixed(month.lightOnCell_Wh_m2_day, month.lightOnCell_Wh_m2_day < 10 ? 1 : 0);
}

/**
 * The month by which spots are compared: December (June in the south); of several the one with least light on the
 * cell, and where the record holds none, the darkest month there is; undefined without a month with light measured.
 */
function darkestMonth(trial: JudgedTrial, southern: boolean): MonthStatistics | undefined {
  const known = trial.statistics.months.filter((month) => !Number.isNaN(month.lightOnCell_Wh_m2_day));
  const solstice = known.filter((month) => month.month.endsWith(southern ? '-06' : '-12'));
  const choice = solstice.length > 0 ? solstice : known;
  return least(choice, (month) => month.lightOnCell_Wh_m2_day);
}
