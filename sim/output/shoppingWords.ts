import type { ShoppingLine } from '../sizing/shoppingList.ts';
import type { Batch } from '../sizing/sizeScenario.ts';
import { moneyWords } from './moneyWords.ts';
import { plural } from './words.ts';

/** What a shopping list is for, and what all of it costs. */
export function shoppingTitle({ spot, named, list }: Batch, currency: string | undefined): string {
  const where = `${named}${spot === undefined ? '' : ` on ${spot}`}`;
  const sum = list.money === undefined ? 'a price is missing' : moneyWords(list.money, currency);
  return `To buy for ${list.lamps} ${plural(list.lamps, 'lamp')}, the ${where}: ${sum}`;
}

/**
 * How many of a part are to be bought, packs times parts in one.
 * @example buyWords({ packs: 2, pack: 5 }); // => '2 x 5'
 */
export function buyWords({ packs, pack }: Pick<ShoppingLine, 'packs' | 'pack'>): string {
  if (packs === 0) return '-';
  return pack === 1 ? String(packs) : `${packs} x ${pack}`;
}
