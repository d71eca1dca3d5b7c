import type { ShoppingLine } from '../sizing/shoppingList.ts';
import type { Batch } from '../sizing/sizeScenario.ts';
import { moneyWords } from './designWords.ts';
import { plural } from './words.ts';

/** What a shopping list is for, and what all of it costs. */
export function shoppingTitle({ spot, named, list }: Batch, currency: string | undefined): string {
  const where = `${named}${spot === undefined ? '' : ` on ${spot}`}`;
  const sum = list.money === undefined ? 'a price is missing' : moneyWords(list.money, currency);
  return `To buy for ${list.lamps} ${plural(list.lamps, 'lamp')}, the ${where}: ${sum}`;
}

/** How many of a part are to be bought: '10 (2 packs of 5)'; '-' for none. */
export function buyWords({ packs, pack }: ShoppingLine): string {
  if (packs === 0) return '-';
  return pack === 1 ? String(packs) : `${packs * pack} (${packs} ${plural(packs, 'pack')} of ${pack})`;
}
