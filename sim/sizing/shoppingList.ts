import type { PartLine } from '../lamp/partsList.ts';

/** One kind of part to be had for a batch of lamps. */
export interface ShoppingLine {
  part: PartLine['part'];
  name: string;
  needed: number;
  /** Of these at hand already, which costs nothing. */
  fromDrawer: number;
  /** Packs to buy, and how many parts one holds. */
  packs: number;
  pack: number;
  /** Bought and not needed, since packs are sold whole. */
  leftOver: number;
  /** What the packs cost; undefined where there is no price for what must be bought. */
  money: number | undefined;
}

/** What is to be bought for a batch of lamps of one kind. */
export interface ShoppingList {
  lamps: number;
  lines: ShoppingLine[];
  /** What all of it costs, packs rounded up; undefined where a price is missing. */
  money: number | undefined;
}

/**
 * What is to be bought for a batch of lamps: what lies in the drawer is used first, packs are bought whole.
 *
 * in: parts of one lamp, as `partsList` gives them; lamps, how many are built, 1 or more
 * @example shoppingList([{ part: 'cell', name: 'small', count: 2, price: 1.5, pack: 5, in_drawer: 1 }], 3).money; // => 7.5
 */
export function shoppingList(parts: readonly PartLine[], lamps: number): ShoppingList {
  const lines = parts.map((line): ShoppingLine => {
    const { part, name, count, price, pack = 1, in_drawer = 0 } = line;
    const needed = count * lamps;
    const fromDrawer = Math.min(needed, in_drawer);
    const packs = Math.ceil((needed - fromDrawer) / pack);
    const bought = packs * pack;
    return {
      part,
      name,
      needed,
      fromDrawer,
      packs,
      pack,
      leftOver: bought + fromDrawer - needed,
      money: bought === 0 || line.included ? 0 : price === undefined ? undefined : bought * price,
    };
  });
  const money = lines.reduce<number | undefined>(
    (sum, line) => (sum === undefined || line.money === undefined ? undefined : sum + line.money),
    0,
  );
  return { lamps, lines, money };
}
