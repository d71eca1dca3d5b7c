import { fixed } from '../../common/csvText.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { WinterOdds } from '../../statistics/WinterOdds.ts';
import type { LampMoney } from '../../trial/lampMoney.ts';
import type { JudgedTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { isolated, wordsMarkup } from '../figures/element.ts';
import { nightCount, ofHundred, surety } from '../oddsWords.ts';
import { plainSentences } from '../plainSentences.ts';
import { verdictWords } from '../winterSentences.ts';
import { dimAndOut, dimOrOut, plural, spokenDates } from '../words.ts';
import { nameMarkup, paragraphMarkup } from './tableMarkup.ts';

/**
 * The answer of a trial: its verdict, what that is in two sentences, and the few numbers it comes to.
 *
 * in: id, the trial's own; trial; setting
 * out: markup
 */
export function answerBlock(id: string, trial: JudgedTrial, setting: BlockSetting): string {
  const { winters, odds } = trial.statistics;
  const { worst } = overWinters(winters);
  const title = `${nameMarkup(trial.lamp)} on ${nameMarkup(trial.spot)}`;
  const { site, promise, schedule, made, money } = setting;
  const plain = plainSentences(trial, { promise, latitude_deg: site.latitude_deg, schedule, made });
  const facts = odds === undefined ? winterFacts(worst) : oddsFacts(odds);
  return [
    `<h2 id="${id}-name">${title}<span class="verdict">${wordsMarkup(verdictWords(trial, setting, isolated).headline)}</span></h2>`,
    paragraphMarkup(plain.join(' '), 'plain'),
    factList([...facts, ...moneyFacts(money)]),
  ].join('\n');
}

type Fact = readonly [value: string, unit: string, words: string];

/** Few numbers, large, each with what it is; '' without any. */
export function factList(facts: readonly Fact[]): string {
  if (facts.length === 0) return '';
  const items = facts.map(
    ([value, unit, words]) =>
      `<div class="fact"><dt>${wordsMarkup(words)}</dt><dd><b>${wordsMarkup(value)}</b> ${wordsMarkup(unit)}</dd></div>`,
  );
  return `<dl class="facts">${items.join('')}</dl>`;
}

/** The few numbers that a winter comes to; none where nothing was promised. */
export function winterFacts(winter: WinterStatistics | undefined): Fact[] {
  if (winter === undefined || winter.nights === 0) return [];
  const { longestSpell: spell, worstNight, smallestReserve_J: left_J, failedNights } = winter;
  const facts: Fact[] = [
    [
      `${failedNights}`,
      `of ${winter.nights}`,
      `failed nights${failedNights === 0 ? '' : `, ${dimOrOut(winter)}`}`,
    ],
    [
      fixed(winter.short_h, 1),
      'h',
      `short, of ${fixed(winter.promised_h, 0)} h promised${winter.short_h === 0 ? '' : `, ${dimAndOut(winter)}`}`,
    ],
  ];
  if (worstNight !== undefined && failedNights > 0)
    facts.push([
      fixed(worstNight.short_h, 1),
      'h',
      `short in the worst night, ${spokenDates(worstNight.night)}`,
    ]);
  if (spell !== undefined)
    facts.push([
      `${spell.nights}`,
      plural(spell.nights, 'night'),
      `failed ${spell.nights > 1 ? 'in a row' : 'at a time'}, ${spokenDates(spell.from, spell.to)}`,
    ]);
  if (!Number.isNaN(left_J)) {
    const night = spokenDates(winter.smallestReserveNight);
    const words =
      left_J < 0
        ? `missing below cut-off in the worst morning, after ${night}`
        : `least energy left in the morning above cut-off, after ${night}`;
    facts.push([fixed(Math.abs(left_J), 0), 'J', words]);
  }
  return [...facts, [fixed(winter.lightGiven_lm_h, 0), 'lm h', 'light given']];
}

/** What several winters come to as a sample. */
function oddsFacts({ winters, kept, failedNights, chance, worstWinter }: WinterOdds): Fact[] {
  const { typical, worst, worstInTen } = failedNights;
  const inTen: Fact[] =
    worstInTen === undefined
      ? []
      : [[fixed(worstInTen, 0), 'nights', 'failed in the worst winter in ten, about']];
  return [
    [nightCount(typical), plural(typical, 'night'), 'failed in a typical winter, the median'],
    ...inTen,
    [`${worst}`, plural(worst, 'night'), `failed in the worst of ${winters} winters, ${worstWinter}`],
    [`${kept}`, `of ${winters}`, 'winters in which every night was kept'],
    [ofHundred(chance), 'of 100', `winters kept, as far as these tell (${surety(chance)})`],
  ];
}

/** What the parts cost and the light that buys, where that is known. */
function moneyFacts({ price, currency, lightForUnit_lm_h: light }: LampMoney): Fact[] {
  if (price === undefined) return [];
  const buys =
    light === undefined ? '' : `: ${fixed(light, 0)} lumen-hours a year for each ${currency ?? '1.00'}`;
  return [[price.toFixed(2), currency ?? '', `for its parts${buys}`]];
}
