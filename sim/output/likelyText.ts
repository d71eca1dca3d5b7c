import type { LikelySizing } from '../sizing/winters/sizeByWinters.ts';
import { likelyCount, likelyWords, namedOdds } from './likelyWords.ts';
import { basisSentence, oddsLines } from './oddsText.ts';
import { sizeHead, sizeLines } from './sizeHead.ts';
import { shoppingLines } from './sizeText.ts';
import { paint } from './textTable.ts';
import { CAUTION_LINES } from './words.ts';

/**
 * What to build by made winters, for people: an answer a spot, the odds of the lamp as it is and of the recommended one,
 * the shopping list where a batch is asked for, how many designs there were.
 *
 * in: sizing; colour, whether the terminal takes it
 * out: text, ending in a line break
 */
export function likelyText(sizing: LikelySizing, colour: boolean): string {
  const { scenario, answers, batches, wishes, basis } = sizing;
  const style = paint(colour);
  const odds = namedOdds(sizing);
  const share = Number((100 * wishes.mustKeep).toFixed(1));
  const asked = `the cheapest lamp that keeps the promise in ${share} of a hundred winters at least, by ${wishes.winters} that are made, from ${answers[0]!.space.present.name}`;
  const lines = [
    ...sizeHead(scenario, odds === undefined ? basisSentence({ basis }) : '', asked, style),
    ...answers.flatMap((answer) => {
      const { headline, kept, sentences, flags } = likelyWords(answer, sizing);
      return [
        '',
        ...sizeLines(headline).map(kept ? style.good : style.bad),
        ...sentences.flatMap((sentence) => sizeLines(sentence, 2, 4)),
        ...flags.flatMap((flag) => sizeLines(`! ${flag}`, 2, 4)),
      ];
    }),
    ...(odds === undefined ? [] : ['', ...oddsLines(odds, style)]),
    ...batches.flatMap((batch) => ['', ...shoppingLines(batch, scenario.currency, style)]),
    '',
    ...answers.flatMap((answer) => sizeLines(likelyCount(answer), 0, 2)),
    ...CAUTION_LINES.flatMap((line) => sizeLines(line)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}
