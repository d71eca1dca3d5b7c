import { describe, expect, test } from 'vitest';
import { lifeFigureFiles, lifeFigures } from '../../../sim/output/figures/lifeFigures.ts';
import { smallLives, smallSweep, smallTrialLife } from '../smallLives.ts';
import { smallRun, smallTrial } from '../smallRun.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

const { scenario } = smallRun([smallTrial({ lamp: 'double' })]);

function drawn(trial = smallTrialLife(), years = 40) {
  const lives = smallLives([trial], { years });
  const [capacitance, nights] = lifeFigures(lives, [], scenario).trials.get(trial)!;
  return { capacitance: capacitance!, nights: nights! };
}

describe('the pictures of a life', () => {
  const { capacitance, nights } = drawn();

  test('are well-formed, and a row of their data is a winter by the three factors', () => {
    for (const figure of [capacitance, nights]) {
      expectWellFormed(figure.svg);
      expect(figure.table.rows).toHaveLength(40);
      expect(figure.table.columns.map(({ label }) => label)).toEqual(['winter', 'low', 'middle', 'high']);
    }
    expect(capacitance.table.rows[19]).toEqual(['20', '74.2', '83.8', '97.3']);
    expect(nights.table.rows[19]).toEqual(['20', '5', '3', '0']);
  });

  test('draw the band from the lowest to the highest, with the middle one within', () => {
    const ends = (path: string) => [...path.matchAll(/[ML,]?([\d.]+),([\d.]+)/g)].map(([, , y]) => Number(y));
    const band = ends(/d="([^"]*)"/.exec(marksOf(capacitance, 'path', 'band')[0]!)![1]!);
    const middle = ends(/d="([^"]*)"/.exec(marksOf(capacitance, 'path', 'capacitor')[0]!)![1]!);
    expect(band).toHaveLength(80);
    // The last winter: the band's far end is its middle.
    expect(Math.min(band[39]!, band[40]!)).toBeLessThan(middle[39]!);
    expect(Math.max(band[39]!, band[40]!)).toBeGreaterThan(middle[39]!);
  });

  test('mark the winters in which the promise first breaks, and the end of the rating', () => {
    const [span] = marksOf(capacitance, 'rect', 'breaking');
    const width = capacitance.reader!.width / 40;
    expect(numberOf(span!, 'x')).toBeCloseTo(capacitance.reader!.x + 11 * width, 1);
    expect(numberOf(span!, 'width')).toBeCloseTo(10 * width, 1);
    expect(capacitance.svg).toContain('end of its rating, below it extrapolated');
    expect(capacitance.reader!.first).toBe(14);
    expect(capacitance.summary).toContain('the promise first breaks in winter 15 (12 to 21)');
  });

  test('have no such mark where it never breaks, and an open one where it does not by one factor', () => {
    expect(
      marksOf(drawn(smallTrialLife([undefined, undefined, undefined])).nights, 'rect', 'breaking'),
    ).toEqual([]);
    const open = drawn(smallTrialLife([30, undefined, undefined])).nights;
    const [span] = marksOf(open, 'rect', 'breaking');
    const { x, width } = open.reader!;
    expect(numberOf(span!, 'x') + numberOf(span!, 'width')).toBeCloseTo(x + width, 1);
  });

  test('are drawn for a narrow screen too, with ids of their own', () => {
    for (const { narrow, svg } of [capacitance, nights]) {
      expectWellFormed(narrow!.svg);
      expect(narrow!.width).toBeLessThan(400);
      const ids = [...(svg + narrow!.svg).matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
      expect(new Set(ids).size).toBe(ids.length);
    }
  });

  test('of several winters of weather show in how many the promise breaks', () => {
    const trial = smallTrialLife();
    const { trials } = lifeFigures(smallLives([trial], { winters: 12 }), [], scenario);
    const chance = trials.get(trial)![2]!;
    expect(chance.key).toBe('life-chance');
    expect(chance.table.rows[19]).toEqual(['20', '100', '100', '0']);
    expect(chance.summary).toContain('the promise breaks in 100 of a hundred');
  });

  test('can be of one winter, and of a thousand', () => {
    for (const years of [1, 1000]) {
      const figures = drawn(smallTrialLife([1, 1, 1], {}, years), years);
      for (const figure of Object.values(figures)) expectWellFormed(figure.svg);
      expect(figures.nights.table.rows).toHaveLength(years);
    }
  });
});

describe('the curve of a sweep', () => {
  const sweep = smallSweep();
  const figure = lifeFigures(smallLives(), [sweep], scenario).sweeps.get(sweep)!;

  test('has light of the first winter, winters and light until then over the values that can be', () => {
    expectWellFormed(figure.svg);
    expect(figure.table.rows.map(([label]) => label)).toEqual(['1.8 V', '2 V', '2.2 V', '2.4 V', '2.6 V']);
    for (const words of [
      'Light of the first winter',
      'Winters that keep the promise',
      'Light until the promise breaks',
    ])
      expect(figure.svg).toContain(words);
    expect(figure.table.rows[3]!.slice(1, 6)).toEqual(['9.60', '0', '11', '15', '18']);
  });

  test('marks the best value', () => {
    const { x, width } = figure.reader!;
    const [mark] = marksOf(figure, 'rect', 'breaking');
    expect(numberOf(mark!, 'x')).toBeCloseTo(x + (3 / 5) * width, 1);
    expect(figure.reader!.first).toBe(3);
  });

  test('is not drawn of a single value', () => {
    const one = smallSweep([2.2]);
    expect(lifeFigures(smallLives(), [one], scenario).sweeps.size).toBe(0);
  });
});

test('pictures as files bear the names of lamp and spot', () => {
  const files = lifeFigureFiles(smallLives(), [smallSweep()], scenario);
  expect(files.map(({ name }) => name)).toEqual([
    '1-life-capacitance-double-lawn.svg',
    '1-life-nights-double-lawn.svg',
    '2-life-limit-double-lawn.svg',
  ]);
});
