import type { LikelySizing } from '../../sizing/winters/sizeByWinters.ts';
import { likelyCount, likelyWords, namedOdds } from '../likelyWords.ts';
import { basisSentence } from '../oddsText.ts';
import { oddsPart } from './oddsPart.ts';
import { groundsMarkup, shoppingTable, sizeShell } from './sizePage.ts';
import { listMarkup, nameMarkup, paragraphMarkup } from './tableMarkup.ts';

/**
 * The page of a sizing by made winters: for each spot the answer in sentences and what to buy, then the odds of all that
 * is told of, in one HTML file.
 *
 * in: sizing; files, names of those written beside it
 * out: HTML text
 */
export function likelyPage(sizing: LikelySizing, files: readonly string[]): string {
  const { scenario, answers, wishes } = sizing;
  const odds = namedOdds(sizing);
  const same = `of which longnight run --winters ${wishes.winters} gives the same odds`;
  return sizeShell(scenario, basisSentence(sizing), [
    ...answers.map((answer, k) => answerMarkup(answer, `size-${k + 1}`, sizing)),
    odds === undefined ? '' : oddsPart(odds, scenario.site.latitude_deg < 0),
    groundsMarkup(sizing, files, same),
  ]);
}

function answerMarkup(answer: LikelySizing['answers'][number], id: string, sizing: LikelySizing): string {
  const { headline, sentences, flags, kept } = likelyWords(answer, sizing);
  const batch = sizing.batches.find(({ spot }) => spot === answer.spot);
  return [
    `<section class="trial" id="${id}" data-verdict="${kept ? 'kept' : 'broken'}"><h2>${nameMarkup(headline)}</h2>`,
    listMarkup(sentences, 'answers'),
    listMarkup(flags, 'flags'),
    batch === undefined ? '' : shoppingTable(batch, sizing.scenario.currency),
    paragraphMarkup(likelyCount(answer)),
    '</section>',
  ].join('\n');
}
