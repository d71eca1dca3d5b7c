import { least } from 'd3-array';
import { fixed } from '../common/csvText.ts';
import { bestFirst } from '../trial/bestFirst.ts';
import type { ComparedTrial, Comparison } from '../trial/Comparison.ts';
import { isolated } from './figures/element.ts';
import { moneyWords } from './moneyWords.ts';
import { typicalWords } from './oddsWords.ts';
import { comparedName, plural } from './words.ts';

/** So many are named each with what it comes to; of more the first and the last. */
const MOST_NAMED = 6;

/**
 * What a comparison comes to: which lamp keeps the promise in which spot and with how much to spare, which break it and
 * by how much, and the least money that keeps it.
 *
 * in: comparison
 * out: sentences, the answer first
 */
export function compareAnswer(comparison: Comparison): string[] {
  const ordered = bestFirst(comparison.trials);
  const kept = ordered.filter(({ verdict }) => verdict === 'kept');
  const broken = ordered.filter(({ verdict }) => verdict === 'broken');
  const judged = kept.length + broken.length;
  if (judged === 0) return ['None of these has a verdict: no whole winter on record holds a promise.'];
  const left = ordered.length - judged;
  const named = (trials: readonly ComparedTrial[], how: (trial: ComparedTrial) => string) =>
    namesOf(trials, (trial) => `${nameOf(comparison, trial)} (${how(trial)})`);
  return [
    `${headline(kept.length, judged)}.`,
    kept.length === 0 ? '' : `Kept by ${named(kept, spareWords)}.`,
    broken.length === 0 ? '' : `Broken by ${named(broken, brokenWords)}.`,
    left === 0 ? '' : `Without a verdict: ${left} ${plural(left, 'trial')}.`,
    cheapest(comparison, kept),
  ].filter((sentence) => sentence !== '');
}

function headline(kept: number, judged: number): string {
  if (judged === 1) return kept === 1 ? 'It keeps its promise' : 'It breaks its promise';
  if (kept === judged) return `${judged === 2 ? 'Both' : `All ${judged}`} keep their promise`;
  if (kept === 0) return `${judged === 2 ? 'Neither' : `None of these ${judged}`} keeps its promise`;
  return kept === 1
    ? `One of these ${judged} keeps its promise`
    : `${kept} of these ${judged} keep their promise`;
}

/** A lamp in a spot, with its scenario where there are several. */
function nameOf(comparison: Comparison, { scenario, lamp, spot }: ComparedTrial): string {
  return `${isolated(comparedName(comparison, scenario, lamp))} on ${isolated(spot)}`;
}

function namesOf(trials: readonly ComparedTrial[], name: (trial: ComparedTrial) => string): string {
  if (trials.length <= MOST_NAMED) {
    const names = trials.map(name);
    return names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  }
  return `${trials.length}, from ${name(trials[0]!)} to ${name(trials.at(-1)!)}`;
}

/** How near a lamp that kept its promise came to breaking it. */
function spareWords({ smallestReserve_J: left_J, odds, winters }: ComparedTrial): string {
  const all = odds === undefined ? '' : `in all ${winters} winters, `;
  if (Number.isNaN(left_J)) return `${all}what it has to spare is not known`;
  return left_J > 0
    ? `${all}${fixed(left_J, 0)} J to spare in its worst morning`
    : `${all}nothing to spare in its worst morning`;
}

function brokenWords({ odds, winters, failedNights, nights, short_h }: ComparedTrial): string {
  if (odds === undefined) return `${failedNights} of ${nights} nights, ${fixed(short_h, 1)} h short`;
  const { typical, worst } = odds.failedNights;
  return `kept in ${odds.kept} of ${winters} winters; ${typicalWords(typical)} in a typical one, ${worst} in the worst, ${odds.worstWinter}`;
}

/** What costs least of all that keeps its promise, where prices are given. */
function cheapest(comparison: Comparison, kept: readonly ComparedTrial[]): string {
  const priced = kept.filter(({ money }) => money.price !== undefined);
  const first = least(priced, ({ money }) => money.price!);
  if (first === undefined) return '';
  const { price, currency } = first.money;
  const equal = priced.filter(({ money }) => money.price === price);
  const names = namesOf(equal, (trial) => nameOf(comparison, trial));
  return `The least that keeps it: ${names}, with parts for ${moneyWords(price!, currency)}.`;
}
