import { describe, expect, test } from 'vitest';
import { oddsOfRuns } from '../../sim/output/oddsText.ts';
import { shownWidth } from '../../sim/output/shownWidth.ts';
import { terminalCompare } from '../../sim/output/terminalCompare.ts';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { fitting, type Look, paint, sideBySide, textTable } from '../../sim/output/textTable.ts';
import { runMain } from '../cli/runMain.ts';
import { smallComparison } from './smallComparison.ts';
import { smallRun } from './smallRun.ts';

const widest = (text: string) => Math.max(...text.split('\n').map(shownWidth));

describe('a text', () => {
  const texts: Record<string, (look: Look) => string> = {
    run: (look) => terminalRun(smallRun(), look),
    compare: (look) => terminalCompare(smallComparison(), look),
    odds: (look) => oddsOfRuns([smallRun()], look),
  };
  for (const [name, text] of Object.entries(texts))
    for (const details of [false, true])
      test(`of ${name}${details ? ' in details' : ''} is as wide as the terminal`, () => {
        for (const columns of [60, 80, 100, 140])
          expect(widest(text({ columns, details })), `${columns}`).toBeLessThanOrEqual(columns);
        expect(text({ details })).toBe(text({ columns: 100, details }));
      });
});

describe('a table without room for its columns', () => {
  const columns = ['a', 'b', 'c'].map((name) => ({
    heading: ['', name] as const,
    cell: (row: string) => `${name}-${row}`.padEnd(12, '.'),
  }));

  test('goes on below beside its first column, nothing lost', () => {
    const lines = textTable(columns, ['one', 'two'], 30);
    expect(Math.max(...lines.map(shownWidth))).toBeLessThanOrEqual(30);
    for (const cell of ['b-one', 'c-one', 'b-two', 'c-two']) expect(lines.join()).toContain(cell);
    expect(lines.join().match(/a-one/g)).toHaveLength(2);
  });

  test('so do things side by side', () => {
    const rows = [{ label: 'nights', cells: ['1234567890', '1234567890', '1234567890'] }];
    const lines = sideBySide(['lawn', 'hedge', 'wall'], rows, 40);
    expect(Math.max(...lines.map(shownWidth))).toBeLessThanOrEqual(40);
    expect(lines.join().match(/nights/g)).toHaveLength(2);
  });

  test('a picture gives way to a sentence', () => {
    expect(fitting(['#'.repeat(80)], 'The sky', paint({ columns: 60 }))).toEqual([
      'The sky takes 80 columns: widen the terminal.',
    ]);
    expect(fitting(['#'], 'The sky', paint())).toEqual(['#']);
  });
});

describe('the columns of the terminal', () => {
  const check = async (world: Parameters<typeof runMain>[1]) =>
    widest((await runMain(['check', 'scenarios/raw-parameters.yaml', '--bench'], world)).stdout);

  test('are those of the terminal or of COLUMNS, 60 at least, and 100 of a file', async () => {
    expect(await check({ tty: true, columns: 70 })).toBeLessThanOrEqual(70);
    expect(await check({ tty: true, columns: 70, env: { COLUMNS: '82' } })).toBeGreaterThan(70);
    expect(await check({ tty: true, columns: 20 })).toBeGreaterThan(50);
    const piped = await check({ columns: 70, env: { COLUMNS: '70' } });
    expect(piped).toBeGreaterThan(90);
    expect(piped).toBe(await check({ tty: true }));
  });
});
