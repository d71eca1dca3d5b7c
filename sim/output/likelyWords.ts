import type { LikelyDesign, LikelyLamp } from '../sizing/winters/LikelyLamp.ts';
import type { LikelySizing } from '../sizing/winters/sizeByWinters.ts';
import type { TrialOdds } from '../trial/odds.ts';
import { changedWords, designWords } from './designWords.ts';
import { moneyWords } from './moneyWords.ts';
import type { SaidOdds } from './oddsText.ts';
import { atLeast } from './oddsWords.ts';
import { type AnswerWords, placeOf } from './sizeWords.ts';
import { plural } from './words.ts';

type Answer = LikelySizing['answers'][number];

/**
 * What made winters say of one spot's designs, in sentences: the cheapest that is shown to keep the promise in the share
 * that is asked for, or what comes nearest; its margin, with poor parts too; what is still open where it was interrupted.
 *
 * in: answer; sizing, that it is of
 */
export function likelyWords(answer: Answer, sizing: LikelySizing): Omit<AnswerWords, 'others'> {
  const { cheapest, nearest, designs } = answer;
  const best = cheapest ?? nearest;
  const place = placeOf(answer, best);
  const share = hundredths(sizing.wishes.mustKeep);
  const none = answer.partial === undefined ? `none of ${designs.all}` : `none of ${answer.partial.settled}`;
  return {
    headline:
      cheapest === undefined
        ? `${place}${none} designs ${answer.partial === undefined ? '' : 'settled so far '}is shown to keep ${share} of a hundred winters`
        : `${place}${costWords(cheapest, sizing)}, keeps ${chanceWords(cheapest, sizing)}`,
    kept: cheapest !== undefined,
    sentences: [
      cheapest === undefined ? nearestSentence(answer, sizing) : changeSentence(cheapest, answer, sizing),
      best === undefined ? '' : marginSentence(best, sizing),
      openSentence(answer, sizing),
    ].filter((sentence) => sentence !== ''),
    flags: best?.flags ?? [],
  };
}

/** The odds of all that is told of, under the names that they are told by. */
export function namedOdds({ answers, basis, learnedWinters, way }: LikelySizing): SaidOdds | undefined {
  const trials = answers.flatMap(({ present, cheapest, nearest }): TrialOdds[] => {
    const best = cheapest ?? nearest;
    const named = cheapest === undefined ? 'nearest' : 'cheapest';
    return [
      ...(present === undefined ? [] : [{ ...present.odds, lamp: 'as it is' }]),
      ...(best === undefined ? [] : [{ ...best.odds, lamp: named }]),
      ...(best?.withPoorParts ? [{ ...best.withPoorParts, lamp: `${named}, poor parts` }] : []),
    ];
  });
  return trials.length === 0 ? undefined : { basis, learnedWinters, way, trials };
}

/** What was done with the designs of an answer. */
export function likelyCount({ spot, designs, runs, partial }: Answer): string {
  const { all, cannotBe, whole, ruledOut, withoutRun, dearer } = designs;
  const parts = [
    `${spot === undefined ? '' : `${spot}: `}${all} ${plural(all, 'design')}`,
    `${whole} judged by all made winters`,
    `${ruledOut} out of reach before that (${withoutRun} without a run)`,
    ...(dearer === 0 ? [] : [`${dearer} dearer than the answer`]),
    ...cannotBe.map(({ why, count }) => `${count} cannot be (${why})`),
    `${runs} winters run in all`,
  ];
  const broken =
    partial === undefined ? '' : `; INTERRUPTED with ${partial.settled} of ${partial.all} settled`;
  return `${parts.join(', ')}${broken}.`;
}

/** A share in whole hundredths, or with one decimal. */
function hundredths(share: number): string {
  return String(Number((100 * share).toFixed(1)));
}

function costWords({ design }: Pick<LikelyDesign, 'design'>, { scenario }: LikelySizing): string {
  return moneyWords(design.price ?? Number.NaN, scenario.currency);
}

function chanceWords({ odds, failed }: LikelyDesign, { wishes }: LikelySizing): string {
  const { winters } = wishes;
  return `${winters - failed} of ${winters} made winters, so at least ${atLeast(odds.keeps)} of a hundred`;
}

function changeSentence(cheapest: LikelyLamp, answer: Answer, sizing: LikelySizing): string {
  const { space } = answer;
  const words = changedWords(cheapest.design, space);
  if (words.length === 0) return `That is ${space.present.name} as it is.`;
  return `Change: ${words.join('; ')}.${presentSentence(answer, sizing)}`;
}

function presentSentence({ present, space }: Answer, sizing: LikelySizing): string {
  if (present === undefined) return '';
  const costs = present.design.price === undefined ? '' : `costs ${costWords(present, sizing)} and `;
  return ` As it is, ${space.present.name} ${costs}keeps ${chanceWords(present, sizing)}.`;
}

function nearestSentence(answer: Answer, sizing: LikelySizing): string {
  const { nearest, space, partial } = answer;
  if (nearest === undefined) {
    const none =
      'No design keeps a single one of the made winters; size without --winters says what comes nearest.';
    return partial === undefined ? `${none}${presentSentence(answer, sizing)}` : '';
  }
  const what = designWords(nearest.design, space);
  return `Nearest comes ${what}: ${costWords(nearest, sizing)}, keeps ${chanceWords(nearest, sizing)}.${presentSentence(answer, sizing)}`;
}

function marginSentence(
  { odds, failed, mayFail, withPoorParts }: LikelyLamp,
  { wishes }: LikelySizing,
): string {
  const { mustKeep, winters } = wishes;
  const { worstInTen, worst } = odds.failedNights;
  const may = `${failed} of ${winters} made winters ${failed === 1 ? 'fails' : 'fail'} where ${mayFail} may for ${hundredths(mustKeep)} of a hundred`;
  const nights = `${Math.round(worstInTen)} failed ${plural(Math.round(worstInTen), 'night')} in the worst winter in ten, ${worst} in the worst of all`;
  return `Margin: ${may}; ${nights}${poorWords(withPoorParts, mustKeep)}.`;
}

function poorWords(poor: LikelyLamp['withPoorParts'], mustKeep: number): string {
  if (poor === undefined) return '';
  if (poor === null) return '; with poor parts no such lamp can be';
  const { share, low } = poor.keeps;
  const holds = low >= mustKeep ? 'it holds with poor parts too' : 'with poor parts it does not hold';
  return `; ${holds} (keeps ${hundredths(share)} of a hundred, at least ${atLeast(poor.keeps)})`;
}

function openSentence({ partial, space }: Answer, sizing: LikelySizing): string {
  if (partial?.open === undefined) return '';
  const { design, looked, failed } = partial.open;
  const found =
    looked === 0 ? 'not looked at yet' : `of the ${looked} darkest made winters looked at it fails ${failed}`;
  return `The cheapest that still may: ${designWords(design, space)}; ${costWords({ design }, sizing)}, ${found}.`;
}
