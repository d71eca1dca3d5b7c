import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { csvRecords } from '../output/smallRun.ts';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden(365);
});
afterAll(() => garden.remove());

const life = (...argv: string[]) => runMain(['life', 'small.yaml', ...argv], { cwd: garden.folder });
const file = (name: string) => readFileSync(join(garden.folder, 'out', 'life-small', name), 'utf8');

describe('life', () => {
  test('tells of every lamp in every spot, writes its files, and gives 0 whatever comes of them', async () => {
    const { code, stdout, stderr } = await life('--years', '3', '--card');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('small: 3 winters of its lamps');
    expect(stdout).toContain('one on bright keeps its promise through all 3 winters.');
    expect(stdout).toContain('one on dim breaks its promise when new');
    expect(stdout.replace(/\s+/g, ' ')).toContain('low, middle and high are run, none is picked');
    const folder = join('out', 'life-small');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(join(folder, 'report.html'));
    expect(readdirSync(join(garden.folder, folder)).sort()).toEqual(['life.csv', 'life.json', 'report.html']);
    expect(csvRecords(file('life.csv'))).toHaveLength(2 * 3 * 3);
    expect(file('report.html').match(/<section class="jarCard"/g)).toHaveLength(2);
  });

  test('with --json prints life.json and nothing else, --figures writes its pictures', async () => {
    const { code, stdout, stderr } = await life(
      ...['--years', '2', '--spot', 'bright', '--capacitors', '1..2', '--json', '--figures', 'pictures'],
    );
    expect(code).toBe(0);
    expect(stdout).toBe(file('life.json'));
    expect(stderr).toContain(join('out', 'life-small', 'life.csv'));
    const { trials, sweeps, years, files } = JSON.parse(stdout);
    expect(years).toBe(2);
    expect(trials.map(({ spot }: { spot: string }) => spot)).toEqual(['bright']);
    expect(sweeps[0].values.map(({ value }: { value: number }) => value)).toEqual([1, 2]);
    expect(Object.keys(files)).toEqual(['life.csv', 'report.html']);
    expect(readdirSync(join(garden.folder, 'pictures')).sort()).toEqual([
      '1-life-capacitance-one-bright.svg',
      '1-life-nights-one-bright.svg',
      '2-life-capacitors-one-bright.svg',
    ]);
  });

  test('with a range of a value has a row for each, one marked best', async () => {
    const { stdout } = await life('--years', '2', '--spot', 'bright', '--limit', '1.8..2.2 by 0.2');
    expect(stdout).toContain('one on bright, by charge limit: light now against winters');
    for (const limit of ['1.8 V', '2 V', '2.2 V']) expect(stdout).toContain(`\n  ${limit} `);
    expect(stdout.match(/ best /g)).toHaveLength(1);
  });

  test('with --must-keep gives 3 where the promise breaks', async () => {
    expect((await life('--years', '1', '--must-keep')).code).toBe(3);
    expect((await life('--years', '1', '--must-keep', '--spot', 'bright')).code).toBe(0);
  });

  test.each([
    [['--years', '0'], /--years 0; expected a number from 1 to 1000/],
    [['--years', '1001'], /--years 1001; expected a number from 1 to 1000/],
    [['--years', '2.5'], /--years 2.5; expected a whole number/],
    [['--limit', '2.7..1.8'], /--limit 2.7..1.8; expected a range from less to more.*--limit 1.8..2.7/s],
    [['--limit', '1..30'], /expected 60 values at most/],
    [['--limit', 'full'], /--limit full; expected a number from 0.3 to 30 V/],
    [['--limit', '1.8-2.7'], /expected a number, or a range with two points. Fix: --limit 1.8..2.7$/m],
    [['--limit', '1.8 V to 2.7 V by 0.3'], /Fix: --limit "1.8 V..2.7 V by 0.3"$/m],
    [['--limit', '1e-3'], /--limit 1e-3; expected a number from 0.3 to 30 V/],
    [['--limit', 'full'], /Fix: a number of V, with a point before decimals$/m],
    [['--years', 'abc'], /Fix: digits, with a point before decimals$/m],
    [['--led-current', '0..1'], /expected a number from 0.05 to 20/],
    [['--capacitors', '1.5..3'], /expected whole numbers of capacitors/],
    [['--cheap-lamp', '5'], /--cheap-lamp 5; expected its price and the winters/],
    [['--lamp', 'two'], /--lamp two/],
    [['--winters', '20'], /light that was logged on the cell/],
  ] as const)('refuses %j', async (words, message) => {
    const { code, stderr } = await life(...words);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
  });
});
