import { expect, test } from 'vitest';
import { energyChart } from '../../../sim/output/figures/energyChart.ts';
import { smallStatistics } from '../smallRun.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

test('the energy of a month is stacked to its whole, in the names of the ledger', () => {
  const { energy } = smallStatistics();
  const months = ['2025-11', '2025-12'].map((month) => ({ ...energy, month, night: `${month}-01` }));
  const figure = energyChart('t', 'x', months, '');
  const heightOf = (name: string, from: number) =>
    marksOf(figure, 'rect', name)
      .map((tag) => numberOf(tag, 'height'))
      .filter((_, k) => k % 2 === from);
  // Given, unharvested low and unharvested high lie over each other: 65, 10 and 5 of 80 kJ.
  const [given] = heightOf('lit', 0);
  const [low] = heightOf('dotted', 0);
  expect(low! / given!).toBeCloseTo(1e4 / 6.5e4, 2);
  for (const words of [
    'not used: capacitor too low',
    'not used: capacitor already full',
    'blocking diode',
    'leakage',
    'delayed branch',
    'driver',
    'LED',
  ])
    expect(figure.svg).toContain(`>${words}</text>`);
  expect(figure.svg).not.toContain('>limiter</text>');
  expect(
    Object.fromEntries(figure.table.columns.map(({ heading }, k) => [heading, figure.table.rows[0]![k]])),
  ).toMatchObject({
    cell_best_Wh: '22.222',
    led_Wh: '12.500',
    stored_change_Wh: '0.097',
  });
  expectWellFormed(figure.svg);
});
