import type { Change, Trial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { element, wordsMarkup } from '../figures/element.ts';
import { moneyWords } from '../moneyWords.ts';
import { plural } from '../words.ts';
import { foldedMarkup, nameMarkup } from './tableMarkup.ts';

/** So many stand open, the others fold. */
const MOST = 3;

/**
 * What single changes would do to a trial that fails: the best with what they cost, all of them folded beneath.
 *
 * in: trial; setting; picture, markup of the picture of all
 * out: markup; '' where nothing was tried
 */
export function mendsBlock(
  { changes, statistics }: Trial,
  { currency }: BlockSetting,
  picture: string,
): string {
  if (changes.length === 0) return '';
  const good = changes.filter(({ effect }) => effect === 'mends' || effect === 'helps').slice(0, MOST);
  const priced = changes.some(({ cost }) => cost !== undefined && cost > 0);
  const heading =
    good.length === 0
      ? 'No single change helps'
      : good[0]!.effect === 'mends'
        ? 'What mends it'
        : 'What helps, though no single change mends it';
  const items = good.map((change) => {
    const words = [leftWords(change, statistics.odds?.winters ?? 1), costWords(change, currency, priced)];
    return `<li><b>${nameMarkup(change.change)}</b> <span class="effect">${wordsMarkup(words.filter(Boolean).join(', '))}</span> <span class="detail">${nameMarkup(change.detail)}</span></li>`;
  });
  return [
    `<h3>${heading}</h3>`,
    items.length === 0 ? '' : element('ol', { class: 'mends' }, items.join('\n')),
    foldedMarkup(`All ${changes.length} single ${plural(changes.length, 'change')} that were tried`, picture),
  ].join('\n');
}

function leftWords(
  { failedNights: left, failedNightsBefore: before, effect }: Change,
  winters: number,
): string {
  if (effect === 'mends') return 'no night fails';
  const over = winters > 1 ? ` in all ${winters} winters` : '';
  return `${left} ${plural(left, 'night')} still ${left === 1 ? 'fails' : 'fail'} of ${before}${over}`;
}

/** priced: whether any change has a price. */
function costWords({ cost }: Change, currency: string | undefined, priced: boolean): string {
  if (cost === undefined) return priced ? 'price not known' : '';
  return cost === 0 ? 'costs nothing' : `adds ${moneyWords(cost, currency)}`;
}
