import { fixed } from '../common/csvText.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { Change, OutcomeSpread } from '../trial/Trial.ts';
import { keyWords } from './keyWords.ts';
import { addsWords, moneyWords } from './moneyWords.ts';
import type { Paint } from './textTable.ts';

/**
 * The few single changes that help a trial most, for the terminal, a line each.
 *
 * in: changes, best first; scenario, for its currency; winters that the nights are counted over; most, changes that are told;
 *   style
 * out: lines; none without changes
 */
export function bestChangeLines(
  changes: readonly Change[],
  { currency }: Pick<Scenario, 'currency'>,
  winters: number,
  most: number,
  style: Paint,
): string[] {
  const [first] = changes;
  if (first === undefined) return [];
  const best = changes.filter(({ effect }) => effect === 'mends' || effect === 'helps').slice(0, most);
  if (best.length === 0)
    return style.wrap(`None of ${changes.length} single changes helps (each: --details).`, 2);
  const few =
    best.length < changes.length
      ? `, the best${best.length > 1 ? ` ${best.length}` : ''} of ${changes.length} (all: --details)`
      : '';
  return [
    ...style.wrap(
      `Failed nights left of ${first.failedNightsBefore}${inAll(winters)} after one change${few}:`,
      2,
    ),
    ...best.flatMap(({ failedNights, change, detail, cost }) => {
      const left = failedNights === 0 ? 'none' : String(failedNights);
      const adds = cost ? `; adds ${moneyWords(cost, currency)}` : '';
      return style.wrap(`${left}: ${change} (${detail}${adds})`, 8 - left.length, 10);
    }),
  ];
}

function inAll(winters: number): string {
  return winters > 1 ? ` in all ${winters} winters` : '';
}

/**
 * What single changes would do to a trial that failed, for the terminal, a line each.
 *
 * in: changes, best first; scenario, for its currency; winters that the nights are counted over; style
 * out: lines; none without changes
 */
export function changeLines(
  changes: readonly Change[],
  { currency }: Pick<Scenario, 'currency'>,
  winters: number,
  style: Paint,
): string[] {
  const [first] = changes;
  if (first === undefined) return [];
  const worse = changes.filter(({ effect }) => effect === 'worse');
  const named = worse.map(({ change, failedNights }) => `${change} (${failedNights})`);
  return [
    ...style.wrap(
      `One change at a time, the whole record run again with each (failed nights now ${first.failedNightsBefore}${inAll(winters)}):`,
      2,
    ),
    ...changes
      .filter(({ effect }) => effect !== 'worse')
      .flatMap((change) => style.wrap(`- ${change.change}: ${outcome(change, currency)}`, 4, 6)),
    ...(worse.length === 0 ? [] : style.wrap(`- worse: ${named.join(', ')}`, 4, 6)),
  ];
}

function outcome(change: Change, currency: string | undefined): string {
  const { failedNights, short_h, shortBefore_h, detail, effect } = change;
  const adds = addsWords(change, currency);
  const but = short_h > shortBefore_h ? 'but short' : 'short';
  const left = `${failedNights} left, ${but} ${fixed(short_h, 1)} instead of ${fixed(shortBefore_h, 1)} h`;
  const words = {
    mends: 'none left',
    helps: left,
    'no-better': `no better, ${left}`,
    worse: `worse, ${left}`,
  };
  return `${words[effect]} (${detail}${adds === '' ? '' : `; ${adds}`})`;
}

/**
 * The outcome of a trial over what the readings of its lamp leave open, for the terminal.
 *
 * in: spread, of the trial; undefined where it was not asked for; style
 * out: lines; none where it was not asked for
 */
export function spreadLines(spread: OutcomeSpread | undefined, style: Paint): string[] {
  if (spread === undefined) return [];
  return style.wrap(sentences(spread), 2);
}

function sentences(spread: OutcomeSpread): string {
  const { samples, ran, verdictStands, failedNights } = spread;
  if (samples === 0) return 'Nothing to spread: no part of this lamp has readings that give an interval.';
  const lost =
    ran === samples
      ? ''
      : ` ${samples - ran} of ${samples} sampled lamps cannot be built: their parts do not go together.`;
  if (ran === 0) return `Over what the readings leave open:${lost}`;
  const { lowest, median, highest } = failedNights;
  const nights =
    lowest === highest
      ? `failed nights always ${lowest}`
      : `failed nights ${lowest} at the lowest, ${median} in the median, ${highest} at the highest`;
  const stands = `the verdict stands in ${verdictStands} of ${ran} sampled lamps, under the same weather; ${nights}.`;
  return `Over what the readings leave open, ${stands}${lost} ${matters(spread)}`;
}

function matters({ ran, mostly, parameters }: OutcomeSpread): string {
  if (ran < 3) return 'Too few of them to say what matters most.';
  if (parameters.every(({ rankCorrelation }) => Number.isNaN(rankCorrelation)))
    return 'No parameter changes the short hours.';
  if (mostly === undefined) return 'No single parameter stands out.';
  const { key, rankCorrelation } = mostly;
  const way = rankCorrelation > 0 ? 'more' : 'fewer';
  return `What matters most is ${keyWords(key)}: the higher, the ${way} short hours (rank correlation ${rankCorrelation.toFixed(2)}).`;
}
