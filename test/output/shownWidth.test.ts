import { expect, test } from 'vitest';
import { filledEnd, filledStart, shortened, shownWidth } from '../../sim/output/shownWidth.ts';
import { paint, sideBySide, textTable, wrapText } from '../../sim/output/textTable.ts';
import { trialGrid } from '../../sim/output/trialGrid.ts';
import { smallRun, smallTrial } from './smallRun.ts';

test('wide letters and emoji take two columns, marks on a letter and isolates none', () => {
  for (const [text, columns] of [
    ['', 0],
    ['north-side', 10],
    ['芝生', 4],
    ['한글 정원', 9],
    ['ＡＢ', 4],
    ['🏡', 2],
    ['e\u0301te\u0301', 3],
    ['หญ้า', 3],
    ['שלום', 4],
    ['a\u2068b\u2069', 2],
  ] as const)
    expect(shownWidth(text), text).toBe(columns);
});

test('filling and cutting count columns', () => {
  expect(filledEnd('芝生', 6)).toBe('芝生  ');
  expect(filledStart('芝生', 6)).toBe('  芝生');
  expect(filledEnd('long', 2)).toBe('long');
  expect(shortened('芝生の庭', 8)).toBe('芝生の庭');
  expect(shortened('芝生の庭の北', 8)).toBe('芝生...');
  expect(shownWidth(shortened('e\u0301'.repeat(20), 10))).toBe(10);
});

const NAMES = ['芝生', 'e\u0301te\u0301', 'north-side', '한글'];

test('columns of tables stand under each other whatever the letters of a name', () => {
  const table = textTable(
    [
      { heading: ['', 'spot'], cell: (name: string) => name },
      { heading: ['', 'n'], cell: () => '7' },
    ],
    NAMES,
  );
  expect(new Set(table.slice(1).map(shownWidth)).size).toBe(1);
  const grid = sideBySide(
    NAMES,
    NAMES.map((label) => ({ label, cells: NAMES.map(() => '12') })),
  );
  expect(new Set(grid.map(shownWidth)).size).toBe(1);
  for (const line of wrapText('芝生 '.repeat(60))) expect(shownWidth(line)).toBeLessThanOrEqual(100);
});

test('a large run of trials in spots with wide names keeps its columns', () => {
  const trials = NAMES.flatMap((spot) => ['一号', 'two'].map((lamp) => smallTrial({ spot, lamp })));
  const run = smallRun(trials);
  const named = <T>(one: T | undefined, names: readonly string[]) =>
    names.map((name) => ({ ...one!, name }) as T);
  const scenario = {
    ...run.scenario,
    spots: named(run.scenario.spots[0], NAMES),
    lamps: named(run.scenario.lamps[0], ['一号', 'two']),
  };
  const lines = trialGrid({ ...run, scenario }, 4, paint({}));
  const from = lines.findIndex((line) => line.startsWith('Failed nights of the worst winter'));
  const rows = lines.slice(from + 1, from + 2 + NAMES.length);
  expect(new Set(rows.map(shownWidth)).size).toBe(1);
});
