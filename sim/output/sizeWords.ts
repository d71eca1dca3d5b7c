import { fixed } from '../common/csvText.ts';
import type { DesignSpace } from '../sizing/DesignSpace.ts';
import type { Recommended, SizedDesign, SizingAnswer, SizingStep } from '../sizing/SizedDesign.ts';
import type { Sizing, SpaceAnswer } from '../sizing/sizeScenario.ts';
import { changedWords, designWords } from './designWords.ts';
import { moneyWords } from './moneyWords.ts';
import { CAUSE_WORDS, plural } from './words.ts';

/** An answer in words: the verdict first, then what hangs on it. */
export interface AnswerWords {
  headline: string;
  /** Whether a design keeps the promise. */
  kept: boolean;
  sentences: string[];
  /** What else is known of it. */
  others: string[];
  /** What a maker must see of the recommended design. */
  flags: readonly string[];
}

/**
 * What one spot's designs come to, in sentences: the cheapest that keeps the promise or what comes nearest, its margin,
 * the brightest, the smallest change, what more money buys, one lamp or two.
 *
 * in: answer; sizing, that it is of
 */
export function answerWords(answer: SpaceAnswer, sizing: Sizing): AnswerWords {
  const { cheapest, nearest, space } = answer;
  const asked = { ...sizing, space };
  const best = cheapest ?? nearest;
  const place = placeOf(answer, best);
  return {
    headline:
      cheapest === undefined
        ? `${place}none of ${triedWords(answer)} keeps the promise`
        : `${place}${price(cheapest, asked)}, ${keptWords(cheapest)}`,
    kept: cheapest !== undefined,
    sentences: [
      cheapest === undefined ? nearestSentence(answer, asked) : changeSentence(cheapest, answer, asked),
      best === undefined ? '' : marginSentence(best),
      brightestSentence(answer, asked),
    ].filter((sentence) => sentence !== ''),
    others: [
      changeOfFew(answer, asked),
      stepsSentence(answer.steps, asked),
      pairSentence(answer, asked),
    ].filter((sentence) => sentence !== ''),
    flags: best?.flags ?? [],
  };
}

/** What words are made with. */
type Asked = Pick<Sizing, 'scenario' | 'wishes'> & { space: DesignSpace };

/** 'On lawn: ', of an answer or of what is best in it. */
export function placeOf(
  { spot }: Pick<SizingAnswer, 'spot'>,
  best: Pick<SizedDesign, 'design'> | undefined,
): string {
  const name = spot ?? best?.design.spot.name;
  return name === undefined ? '' : `On ${name}: `;
}

function price({ design }: SizedDesign, { scenario }: Asked): string {
  return moneyWords(design.price ?? Number.NaN, scenario.currency);
}

/** How a design keeps its promise, in words that follow its price. */
function keptWords({ winters, keptWinters, failedNights, verdict }: Recommended): string {
  if (verdict === 'no-whole-winter') return 'every night of the record kept, which holds no whole winter';
  if (failedNights === 0) return winters > 1 ? `every night of ${winters} winters kept` : 'every night kept';
  return `${keptWinters} of ${winters} winters kept`;
}

function failedWords({ failedNights, short_h }: SizedDesign): string {
  if (failedNights === 0) return 'fails no night';
  return `fails ${failedNights} ${plural(failedNights, 'night')}, ${fixed(short_h, 1)} h short`;
}

function changeSentence(cheapest: Recommended, { present }: SizingAnswer, asked: Asked): string {
  const words = changedWords(cheapest.design, asked.space);
  if (words.length === 0) return `That is ${asked.space.present.name} as it is.`;
  return `Change: ${words.join('; ')}.${presentSentence(present, asked)}`;
}

function presentSentence(present: SizedDesign | undefined, asked: Asked): string {
  if (present === undefined) return '';
  const costs = present.design.price === undefined ? '' : `costs ${price(present, asked)} and `;
  return ` As it is, ${asked.space.present.name} ${costs}${failedWords(present)}.`;
}

function nearestSentence({ nearest, present }: SizingAnswer, asked: Asked): string {
  if (nearest === undefined) return 'No such lamp can be.';
  const words = changedWords(nearest.design, asked.space);
  const what = words.length === 0 ? `${asked.space.present.name} as it is` : words.join('; ');
  const way = nearest.inTheWay.map(({ cause, nights }) => `${CAUSE_WORDS[cause]} on ${nights}`).join(', ');
  return `Nearest comes ${what}: ${price(nearest, asked)}, ${failedWords(nearest)}; in the way: ${way}.${presentSentence(present, asked)}`;
}

function marginSentence({ margin, withPoorParts, failedNights }: Recommended): string {
  const { smallestReserve_J, oneYearOnly } = margin;
  const reserve =
    smallestReserve_J >= 0
      ? `${fixed(smallestReserve_J, 0)} J left at the worst dawn`
      : 'nothing left at the worst dawn';
  const year = oneYearOnly ? '; no margin in one year of weather: others are darker' : '';
  return `Margin: ${reserve}${poorWords(withPoorParts, failedNights)}${year}.`;
}

function poorWords(poor: Recommended['withPoorParts'], failedNights: number): string {
  if (poor === undefined) return '';
  if (poor === null) return '; with poor parts no such lamp can be';
  if (poor.failedNights <= failedNights) return '; it holds with poor parts too';
  return `; with poor parts it fails ${poor.failedNights} ${plural(poor.failedNights, 'night')}`;
}

function changeOfFew({ leastChange, cheapest, present, partial }: SizingAnswer, asked: Asked): string {
  if (leastChange === undefined || cheapest === undefined || present?.failedNights === 0) return '';
  const count = leastChange.design.changed.length;
  if (leastChange.design.index === cheapest.design.index)
    return count === 0 || partial !== undefined ? '' : 'No smaller change keeps the promise.';
  const words = changedWords(leastChange.design, asked.space);
  const what = words.length === 0 ? 'none, the lamp as it is' : words.join('; ');
  return `Smallest change: ${what}; ${price(leastChange, asked)}.`;
}

function brightestSentence({ brightest, cheapest, partial }: SizingAnswer, asked: Asked): string {
  const {
    wishes: { budget },
    scenario,
    space,
  } = asked;
  if (budget === undefined || cheapest === undefined) return '';
  const sum = moneyWords(budget, scenario.currency);
  if (brightest === undefined)
    return `For ${sum} none${partial === undefined ? '' : ' so far'} keeps the promise.`;
  const light = `${fixed(brightest.light_lm_h, 0)} lm h a year`;
  if (brightest.design.index === cheapest.design.index) return `Brightest for ${sum}: the same, ${light}.`;
  return `Brightest for ${sum}: ${designWords(brightest.design, space)}; ${price(brightest, asked)}, ${light} (the cheapest ${fixed(cheapest.light_lm_h, 0)}).`;
}

/** Steps that are told: the last, which mend the nights that are hardest to keep. */
const MOST_STEPS = 3;

function stepsSentence(steps: readonly SizingStep[], asked: Asked): string {
  const told = steps.slice(-MOST_STEPS);
  const [first] = told;
  if (first === undefined) return '';
  const { failedNights } = first.from;
  const words = told.map(({ adds, mends }) => `${moneyWords(adds, undefined)} more mends ${mends}`);
  return `What more money buys: ${price(first.from, asked)} fails ${failedNights} ${plural(failedNights, 'night')}; ${words.join('; ')}.`;
}

/** The designs that are known not to be the answer: of a search that was interrupted not all. */
function triedWords({ designs: { all }, partial }: SizingAnswer): string {
  return partial === undefined ? `${all} designs` : `the ${partial.settled} designs settled so far`;
}

function pairSentence({ oneOrTwo, cheapest, partial }: SizingAnswer, asked: Asked): string {
  if (oneOrTwo === undefined) return '';
  const { two, one } = oneOrTwo;
  const sum = two.price === undefined ? 'a price is missing' : moneyWords(two.price, asked.scenario.currency);
  const sofar = partial === undefined ? '' : ' so far';
  // A second lamp may need bought what the drawer has for the first.
  const twice = 2 * (cheapest?.design.price ?? 0);
  const dearer = two.price !== undefined && fixed(two.price, 2) !== fixed(twice, 2);
  const pair = `Two of the cheapest${dearer ? ', out of one drawer' : ''}: ${sum}, ${fixed(two.light_lm_h, 0)} lm h a year`;
  return one === undefined
    ? `${pair}; no single one${sofar} gives as much and keeps the promise.`
    : `${pair}; one with as much light: ${price(one, asked)}.`;
}

/**
 * How many designs there were, and what was done with them.
 *
 * in: answer; before, how many of those run an earlier search had run: no part of what is written
 */
export function countSentence({ spot, designs, sized, partial }: SizingAnswer, before = 0): string {
  const { all, cannotBe, ruledOut } = designs;
  const without = cannotBe.reduce((sum, { count }) => sum + count, 0);
  const why = cannotBe.map(({ why: words, count }) => `${count} ${words}`).join(', ');
  return [
    `${spot === undefined ? '' : `${spot}: `}${all} ${plural(all, 'design')}, ${sized.length} run whole`,
    before === 0 ? '' : ` (${before} of them before)`,
    ruledOut === 0 ? '' : `, ${ruledOut} ruled out without`,
    without === 0 ? '' : `, ${without} cannot be (${why})`,
    partial === undefined ? '' : `; INTERRUPTED with ${partial.settled} of ${partial.all} settled`,
    '.',
  ].join('');
}
