import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { type PartLine, partsList } from '../../sim/lamp/partsList.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { shoppingList } from '../../sim/sizing/shoppingList.ts';

const cells: PartLine = { part: 'cell', name: 'solar cells', count: 2, price: 2.4, pack: 5, in_drawer: 3 };
const diode: PartLine = { part: 'diode', name: 'blocking diode', count: 1, price: 0.1 };

it('shoppingList uses the drawer first and buys packs whole, saying what is left over', () => {
  const { lines, money } = shoppingList([cells, diode], 4);
  expect(lines).toEqual([
    {
      part: 'cell',
      name: 'solar cells',
      needed: 8,
      fromDrawer: 3,
      packs: 1,
      pack: 5,
      leftOver: 0,
      money: 12,
    },
    {
      part: 'diode',
      name: 'blocking diode',
      needed: 4,
      fromDrawer: 0,
      packs: 4,
      pack: 1,
      leftOver: 0,
      money: 0.4,
    },
  ]);
  expect(money).toBeCloseTo(12.4, 12);
  const [more] = shoppingList([cells], 5).lines;
  expect(more).toMatchObject({ needed: 10, packs: 2, leftOver: 3, money: 24 });
});

it('shoppingList buys nothing of what the drawer holds enough of', () => {
  const [line] = shoppingList([cells], 1).lines;
  expect(line).toMatchObject({ needed: 2, fromDrawer: 2, packs: 0, leftOver: 0, money: 0 });
});

it('shoppingList has no sum where a part that is bought has no price, but one where it is at hand or comes with another', () => {
  const without: PartLine = { part: 'jar', name: 'jar', count: 1 };
  expect(shoppingList([cells, without], 1)).toMatchObject({ money: undefined });
  expect(shoppingList([{ ...without, in_drawer: 2 }], 2).money).toBe(0);
  expect(shoppingList([{ ...without, included: true }], 2).money).toBe(0);
});

it('shoppingList of one lamp without packs costs what the lamp costs', () => {
  const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
  for (const { section } of loadScenario(file, 'invented-garden.yaml').lamps) {
    const parts = partsList(section).map(({ pack: _, ...line }) => ({ price: 1.5, ...line }));
    const cost = parts.reduce((sum, { price, count, included }) => sum + (included ? 0 : price * count), 0);
    expect(shoppingList(parts, 1).money).toBeCloseTo(cost, 12);
  }
});
