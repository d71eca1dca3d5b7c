import { beforeAll, expect, it } from 'vitest';
import { designsCsv } from '../../sim/output/designsCsv.ts';
import { frontTitle } from '../../sim/output/frontTable.ts';
import { sizeText } from '../../sim/output/sizeText.ts';
import type { Sizing, SpaceAnswer } from '../../sim/sizing/sizeScenario.ts';
import { smallSizing } from '../sizing/smallSizing.ts';
import { csvRecords } from './smallRun.ts';

let sizing: Sizing;
beforeAll(async () => {
  sizing = await smallSizing({ budget: 9, lamps: 5 });
});

it('sizeText says the answer of each spot first, and what stands in the way where there is none', () => {
  const text = sizeText(sizing, { details: true });
  const words = text.replace(/\n +/g, ' ');
  const { cheapest, present } = sizing.answers[0]!;
  expect(words).toContain(`On bright: ${cheapest!.design.price!.toFixed(2)} EUR, every night kept\n`.trim());
  expect(words).toContain('Change: capacitor 100 F (now 360 F).');
  expect(words).toContain(`one costs ${present!.design.price!.toFixed(2)} EUR and fails no night`);
  expect(words).toMatch(/On dim: none of \d+ designs keeps the promise/);
  expect(words).toMatch(/Nearest comes .*: \d+\.\d\d EUR, fails \d+ nights, .* h short; in the way: /);
  expect(words).toContain('Brightest for 9.00 EUR');
  expect(text.split('\n').every((line) => line.length <= 100)).toBe(true);
});

it('sizeText says of two of the cheapest that they share a drawer, where that makes the second one dearer', () => {
  const { oneOrTwo, cheapest } = sizing.answers[0]!;
  const said = (price: number) => {
    const answers = sizing.answers.map((answer) => ({
      ...answer,
      oneOrTwo: answer.oneOrTwo && { ...answer.oneOrTwo, two: { ...answer.oneOrTwo.two, price } },
    }));
    return /Two of the cheapest.*?EUR/.exec(sizeText({ ...sizing, answers }, { details: true }))![0];
  };
  const twice = 2 * cheapest!.design.price!;
  expect(oneOrTwo).toBeDefined();
  expect(said(twice)).toBe(`Two of the cheapest: ${twice.toFixed(2)} EUR`);
  expect(said(twice + 0.01)).toBe(`Two of the cheapest, out of one drawer: ${(twice + 0.01).toFixed(2)} EUR`);
});

it('sizeText of an interrupted search says nothing of designs that it did not come to', () => {
  const answers = sizing.answers.map((answer) => ({
    ...answer,
    brightest: undefined,
    leastChange: answer.cheapest,
    oneOrTwo: answer.oneOrTwo && { ...answer.oneOrTwo, one: undefined },
    partial: { settled: 3, all: answer.designs.all },
  }));
  const words = sizeText({ ...sizing, answers }, { details: true }).replace(/\n +/g, ' ');
  expect(words).toContain('On dim: none of the 3 designs settled so far keeps the promise');
  expect(words).toContain('For 9.00 EUR none so far keeps the promise.');
  expect(words).toContain('no single one so far gives as much');
  expect(words).not.toContain('No smaller change');
});

it('sizeText has one table of at most ten rows, and says of how many', () => {
  const lines = sizeText(sizing, { details: true }).split('\n');
  const from = lines.findIndex((line) => line.startsWith('Designs that nothing beats'));
  const rows = lines.slice(from + 3, lines.indexOf('', from)).filter((line) => /\d+\.\d\d/.test(line));
  expect(rows.length).toBeGreaterThan(3);
  expect(rows.length).toBeLessThanOrEqual(10);
});

it('the title of the table counts the designs that nothing beats, and says where others stand among them', () => {
  const [answer] = sizing.answers as [SpaceAnswer];
  const best = answer.front.map((sized) => ({ answer, sized, named: '' }));
  const beaten = { answer, sized: answer.present!, named: 'as it is' };
  const title = 'Designs that nothing beats in cost, failed nights and light';
  expect(best.length).toBeGreaterThan(1);
  expect(frontTitle(best)).toBe(title);
  expect(frontTitle([beaten, ...best])).toBe(`${title} and others named below`);
  const few = `, ${best.length - 1} of ${best.length}`;
  expect(frontTitle(best.slice(1))).toBe(`${title}${few}`);
  expect(frontTitle([beaten, ...best.slice(1)])).toBe(`${title}${few}, and others named below`);
});

it('sizeText lists what a batch needs, with packs, drawer and what is left over', () => {
  const text = sizeText(sizing, { details: true });
  expect(text).toContain('To buy for 5 lamps, the cheapest on bright: ');
  // Five cells, one at hand, four in a pack; five diodes, ten in a pack.
  expect(text).toMatch(/solar cell, small-cell +5 +1 +1 x 4 +- +8\.00/);
  expect(text).toMatch(/blocking diode, small-schottky +5 +- +1 x 10 +5 +1\.00/);
});

it('designs.csv has every design that was run, the present lamp first, with what was chosen', () => {
  const rows = csvRecords(designsCsv(sizing));
  const [bright] = sizing.answers;
  expect(rows).toHaveLength(sizing.answers.reduce((sum, { sized }) => sum + sized.length + 1, 0));
  expect(rows[0]).toMatchObject({ recommended: 'as it is', spot: 'bright', 'capacitor.capacitance_F': '' });
  const cheapest = rows.find(({ recommended }) => recommended!.includes('cheapest'))!;
  expect(cheapest).toMatchObject({
    price: bright!.cheapest!.design.price!.toFixed(2),
    failed_nights: '0',
    'capacitor.capacitance_F': '100',
    'cell.parallel': '1',
  });
});

it('designs.csv has a design that is the present lamp once, named so', async () => {
  const choices = 'choices: { cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [100, 360] } }\n';
  const { answers, ...rest } = await smallSizing({ spot: 'bright' }, choices);
  const [{ sized, present }] = answers as [SpaceAnswer];
  expect(sized).toContain(present);
  const rows = csvRecords(designsCsv({ answers, ...rest }));
  expect(rows).toHaveLength(sized.length);
  expect(
    rows.filter((row) => row['capacitor.capacitance_F'] === '360' && row['cell.parallel'] === '1'),
  ).toMatchObject([{ recommended: 'as it is and least change' }]);
});
