import { beforeAll, expect, test } from 'vitest';
import { designChart } from '../../../sim/output/figures/designChart.ts';
import { sizePage } from '../../../sim/output/page/sizePage.ts';
import type { Sizing } from '../../../sim/sizing/sizeScenario.ts';
import { smallSizing } from '../../sizing/smallSizing.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

let sizing: Sizing;
beforeAll(async () => {
  sizing = await smallSizing({ spot: 'bright', lamps: 2 });
});

test('the picture has a mark for every design that nothing beats, the dearer to the right, the failing above', () => {
  const answer = sizing.answers[0]!;
  const figure = designChart('size-1', 'bright', answer, 'EUR');
  const marks = marksOf(figure, 'circle', 'lit');
  expect(marks).toHaveLength(answer.front.length);
  for (const [k, mark] of marks.entries()) {
    for (const [l, other] of marks.entries()) {
      const [one, two] = [answer.front[k]!, answer.front[l]!];
      if (one.design.price! < two.design.price!)
        expect(numberOf(mark, 'cx')).toBeLessThan(numberOf(other, 'cx'));
      if (one.failedNights > two.failedNights)
        expect(numberOf(mark, 'cy')).toBeLessThan(numberOf(other, 'cy'));
      if (one.light_lm_h > two.light_lm_h)
        expect(numberOf(mark, 'r')).toBeGreaterThanOrEqual(numberOf(other, 'r'));
    }
  }
  expect(figure.svg).toContain('Cost of one lamp, EUR');
  expect(figure.svg).toContain('>cheapest');
  expectWellFormed(figure.svg);
  expectWellFormed(figure.narrow!.svg);
  expect(marksOf(figure.narrow!, 'circle', 'lit')).toHaveLength(answer.front.length);
});

test('the line of what money buys goes down and to the right', () => {
  const { svg } = designChart('size-1', 'bright', sizing.answers[0]!, undefined);
  const path = /class="capacitor" d="M([\d.]+) ([\d.]+)((?:H[\d.]+V[\d.]+)*)H([\d.]+)"/.exec(svg)!;
  const stairs = [...path[3]!.matchAll(/H([\d.]+)V([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
  expect(stairs).toHaveLength(sizing.answers[0]!.steps.length);
  let [x, y] = [Number(path[1]), Number(path[2])];
  for (const [nextX, nextY] of stairs) {
    expect(nextX).toBeGreaterThanOrEqual(x!);
    expect(nextY).toBeGreaterThan(y!);
    [x, y] = [nextX!, nextY!];
  }
});

test('the page has an answer, a picture, a table and a shopping list for a spot, and the cautions', () => {
  const html = sizePage(sizing, ['size.json']);
  expect(html.match(/<section class="trial"/g)).toHaveLength(1);
  expect(html).toContain('id="size-1-designs"');
  expect(html).toContain('To buy for 2 lamps');
  expect(html).toContain('hundreds of amperes');
});
