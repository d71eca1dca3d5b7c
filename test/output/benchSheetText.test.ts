import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { benchSheetText, benchWays } from '../../sim/output/benchSheetText.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { type BenchSheet, benchSheet } from '../../sim/trial/benchSheet.ts';
import { runMain } from '../cli/runMain.ts';

const demo = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
const sheets = loadScenario(demo).lamps.map(benchSheet);

const SMALL: BenchSheet = {
  lamp: 'small',
  parts: [{ part: 'cell', count: 2, rating: '2 V', price: 1.25, cost: 2.5 }],
  cost: 2.5,
  unpriced: ['jar'],
  wires: [{ from: 'cell +', to: 'capacitor +' }],
  checks: [
    { part: 'cell', what: 'one', how: 'by eye', unit: 'V', expected: 1, low: 0.5, high: 1.5 },
    { part: 'cell', what: 'two', how: 'by hand', unit: 'mA', expected: 20, low: 18, high: 23.45 },
    { part: 'cell', what: 'three', how: 'by eye', unit: 'V', expected: 3, low: 2, high: 4 },
  ],
  tolerances: ['all of it invented'],
  sealing: ['keep it dry'],
  flags: ['mind this'],
  cautions: ['mind that'],
};

it('the sheet as text says what to measure, what to expect and how, each way once', () => {
  const text = benchSheetText([SMALL]);
  expect(text).toMatch(/^ +2 two +20\.0 +18\.0 +23\.4 +mA +_+$/m);
  expect(text).toContain('  1, 3: by eye\n  2: by hand\n');
  expect(text).toContain('2 cell: 2 V; 2 times 1.25, 2.50\n');
  expect(text).toContain('Together 2.50, in the currency of the prices; without a price: jar.\n');
  for (const words of [
    'Please note: mind this',
    'cell + to capacitor +',
    '- keep it dry',
    '- mind that',
    '- all of it',
  ])
    expect(text).toContain(words);
});

it('no line is longer than a terminal, and cautions stand once for several lamps', () => {
  const text = benchSheetText(sheets);
  expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  expect(text.match(/^Build and bench sheet of/gm)).toHaveLength(2);
  expect(text.match(/^Cautions$/gm)).toHaveLength(1);
  expect(text).not.toMatch(/NaN|undefined|Infinity/);
});

it('the ways of measuring name every check once', () => {
  for (const { checks } of sheets)
    expect(
      benchWays(checks)
        .flatMap(({ rows }) => rows)
        .sort((a, b) => a - b),
    ).toEqual(checks.map((_, k) => k + 1));
});

it('check --bench prints it, with --json the same as data, and refuses --schema beside it', async () => {
  const { code, stdout } = await runMain(['check', demo, '--bench']);
  expect(code).toBe(0);
  expect(stdout).toBe(benchSheetText(sheets));
  const asJson = JSON.parse((await runMain(['check', demo, '--bench', '--json'])).stdout);
  expect(asJson.lamps[1].checks).toEqual(sheets[1]!.checks);
  const refused = await runMain(['check', '--schema', '--bench']);
  expect(refused.code).not.toBe(0);
  expect(refused.stderr).toContain('--schema and --bench');
});
