import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { benchSheetText, benchWays } from '../../sim/output/benchSheetText.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { type BuildSheet, benchSheet } from '../../sim/trial/benchSheet.ts';
import { runMain } from '../cli/runMain.ts';

const demo = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
const { lamps, spots } = loadScenario(demo);
const sheets = lamps.map((lamp) => benchSheet(lamp, spots) as BuildSheet);

const SMALL: BuildSheet = {
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
  discharge: {
    ohm: 10,
    begins_A: 0.2,
    begins_W: 0.4,
    rated_W: 1,
    from_V: 2,
    to_V: 0.1,
    hours: 3,
    heat_J: 200,
    steps: ['put 10 ohm across it', 'read it'],
  },
  cautions: ['mind that'],
};

it('the sheet as text says what to measure, what to expect and how, each way once', () => {
  const text = benchSheetText([SMALL]);
  expect(text).toMatch(/^ +2 two +20\.0 +18\.0 +23\.4 +mA +_+$/m);
  expect(text).toContain('  1, 3: by eye\n  2: by hand\n');
  expect(text).toContain('2 cell: 2 V; 2 times 1.25, 2.50\n');
  expect(text).toContain('Together 2.50; without a price: jar.\n');
  for (const words of [
    'Please note: mind this',
    '  put 10 ohm across it\n',
    'cell + to capacitor +',
    '- keep it dry',
    '- mind that',
    '- all of it',
  ])
    expect(text).toContain(words);
});

it('no line is longer than a terminal, and each sheet begins with step 0 and its cautions', () => {
  const text = benchSheetText(sheets);
  expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  expect(text.match(/^Build and bench sheet of/gm)).toHaveLength(2);
  expect(text.match(/^Care first\. Step 0, before the first wire and before every rewiring$/gm)).toHaveLength(
    2,
  );
  expect(text.match(/^Bands rest on$/gm)).toHaveLength(1);
  const order = [
    'Care first',
    'Parts\n',
    'Wires. Step 0 before',
    'Before the lid is closed',
    'How\n',
    'Sealing',
  ];
  const places = order.map((heading) => text.indexOf(`\n${heading}`));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
  expect(places[0]).toBeGreaterThan(0);
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
  expect(stdout.startsWith(`${benchSheetText(sheets)}\n`)).toBe(true);
  const asJson = JSON.parse((await runMain(['check', demo, '--bench', '--json'])).stdout);
  expect(asJson.lamps[1].checks).toEqual(sheets[1]!.checks);
  const refused = await runMain(['check', '--schema', '--bench']);
  expect(refused.code).not.toBe(0);
  expect(refused.stderr).toContain('--schema and --bench');
});

it('the sheet as text says what is at hand, what is sold in packs, and in which money', () => {
  const cells = { part: 'cells', rating: '2 V', price: 1.25, pack: 5 };
  const text = benchSheetText([
    {
      ...SMALL,
      currency: 'EUR',
      parts: [
        { ...cells, count: 4, in_drawer: 1, cost: 3.75 },
        { ...cells, count: 4, in_drawer: 3, cost: 1.25 },
        { ...cells, count: 4, in_drawer: 9, cost: 0 },
      ],
    },
  ]);
  expect(text).toContain('4 cells: 2 V; 1 of them at hand; 3 times 1.25, 3.75; sold in packs of 5\n');
  expect(text).toContain('4 cells: 2 V; 3 of them at hand; 1.25; sold in packs of 5\n');
  expect(text).toContain('4 cells: 2 V; at hand; sold in packs of 5\n');
  expect(text).toContain('Together 2.50 EUR;');
});
