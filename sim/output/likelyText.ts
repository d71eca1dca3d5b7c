import type { LikelySizing } from '../sizing/winters/sizeByWinters.ts';
import { likelyCount, likelyWords, namedOdds } from './likelyWords.ts';
import { basisSentence, oddsLines } from './oddsText.ts';
import { sizeHead } from './sizeHead.ts';
import { shoppingLines } from './sizeText.ts';
import { type Look, paint } from './textTable.ts';
import { CAUTION_LINES } from './words.ts';

/**
 * What to build by made winters, for people: an answer a spot, the odds of the lamp as it is and of the recommended one,
 * the shopping list where a batch is asked for, how many designs there were.
 *
 * in: sizing; look, of the terminal
 * out: text, ending in a line break
 */
export function likelyText(sizing: LikelySizing, look: Look = {}): string {
  const { scenario, answers, batches, wishes, basis } = sizing;
  const style = paint(look);
  const odds = namedOdds(sizing);
  const share = Number((100 * wishes.mustKeep).toFixed(1));
  const asked = `the cheapest lamp that keeps the promise in ${share} of a hundred winters at least, by ${wishes.winters} that are made, from ${answers[0]!.space.present.name}`;
  const lines = [
    ...sizeHead(scenario, odds === undefined ? basisSentence({ basis }) : '', asked, style),
    ...answers.flatMap((answer) => {
      const { headline, kept, sentences, flags } = likelyWords(answer, sizing);
      return [
        '',
        ...style.wrap(headline).map(kept ? style.good : style.bad),
        ...sentences.flatMap((sentence) => style.wrap(sentence, 2, 4)),
        ...flags.flatMap((flag) => style.wrap(`! ${flag}`, 2, 4)),
      ];
    }),
    ...(odds === undefined ? [] : ['', ...oddsLines(odds, style)]),
    ...batches.flatMap((batch) => ['', ...shoppingLines(batch, scenario.currency, style)]),
    '',
    ...answers.flatMap((answer) => style.wrap(likelyCount(answer), 0, 2)),
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}
