import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { published } from '../../sim/output/json.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { overWinters } from '../../sim/statistics/overWinters.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { choiceGarden } from '../sizing/choiceGarden.ts';
import { runMain } from './runMain.ts';
import type { SmallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = choiceGarden();
});
afterAll(() => garden.remove());

const size = (...words: string[]) => runMain(['size', 'small.yaml', ...words], { cwd: garden.folder });

describe('size', () => {
  test('says the cheapest, writes its files, and each recommended scenario runs to the same numbers', async () => {
    const { code, stdout, stderr } = await size('--json', '--budget', '12', '--lamps', '3');
    expect(code).toBe(0);
    const folder = join(garden.folder, 'out', 'size-small');
    expect(stdout).toBe(readFileSync(join(folder, 'size.json'), 'utf8'));
    expect(stderr.trim().split('\n').at(-1)).toBe(join('out', 'size-small', 'size.json'));
    const { answers, files, shopping, currency } = JSON.parse(stdout);
    expect(currency).toBe('EUR');
    expect(readdirSync(folder).sort()).toEqual([...Object.keys(files), 'size.json'].sort());
    expect(answers.map(({ spot }: { spot: string }) => spot)).toEqual(['bright', 'dim']);
    expect(shopping).toHaveLength(2);
    const [bright, dim] = answers;
    expect(dim.cheapest).toBeNull();
    expect(dim.nearest.failed_nights).toBeGreaterThan(0);
    for (const one of [bright.cheapest, bright.brightest, bright.least_change, dim.nearest]) {
      const run = await runAll(loadScenario(join(folder, one.file)), { withChanges: false });
      expect(run.trials).toHaveLength(1);
      const { nights, failedNights, short_h, lightGiven_lm_h, ...over } = overWinters(
        run.trials[0]!.statistics.winters,
      );
      expect(
        published({ nights, failedNights, short_h, lightGiven_lm_h, left_J: over.smallestReserve_J }),
      ).toEqual({
        nights: one.nights,
        failed_nights: one.failed_nights,
        short_h: one.short_h,
        light_given_lm_h: one.light_lm_h,
        left_J: one.smallest_reserve_J,
      });
    }
  });

  test('says the same in plain words of at most 100 columns', async () => {
    const { code, stdout } = await size('--must-keep', '--spot', 'bright', '--out', 'one');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^On bright: \d+\.\d\d EUR, every night kept$/m);
    expect(stdout.replace(/\n */g, ' ')).toContain('no margin in one year of weather');
    expect(stdout.split('\n').every((line) => line.length <= 100)).toBe(true);
    expect(existsSync(join(garden.folder, 'one', 'size-small', 'cheapest.yaml'))).toBe(true);
  });

  test('ends with 3 where nothing keeps the promise and --must-keep asks for it, saying what stands in the way', async () => {
    const { code, stdout } = await size('--must-keep', '--spot', 'dim', '--out', 'dim');
    expect(code).toBe(3);
    expect(stdout).toMatch(/^On dim: none of \d+ designs keeps the promise$/m);
    expect(stdout).toContain('in the way:');
  });

  test('refuses what cannot be asked', async () => {
    const share = await size('--must-keep', '0.9');
    expect([share.code, share.stdout]).toEqual([2, '']);
    expect((await size('--lamps', '2.5')).stderr).toContain('a whole number');
    expect((await size('--budget', '-1')).code).toBe(2);
    const two = await size('--assign', '--find', 'capacitance');
    expect(two.stderr).toContain('one of them');
  });
});

describe('Ctrl-C while designs are tried', () => {
  test('writes what is there as a part, with 130, and the next search goes on from there to the whole answer', async () => {
    const many = choiceGarden('choices: { capacitor: { capacitance_F: 100..1000 by 5 } }\n');
    const words = ['size', 'small.yaml', '--spot', 'bright'];
    const broken = await runMain(words, { cwd: many.folder, tty: true, signalAt: 'design ' });
    expect(broken.code).toBe(130);
    const whole = await runMain([...words, '--json'], { cwd: many.folder });
    expect(whole.code).toBe(0);
    const alone = await runMain([...words, '--json', '--out', 'other'], { cwd: many.folder });
    expect(whole.stdout).toBe(alone.stdout);
    const { stdout: help } = await runMain(['size', '--help']);
    expect(help).toContain('results/size-cache.txt (safe to delete)');
    expect(existsSync(join(many.folder, 'out', 'size-cache.txt'))).toBe(true);
    many.remove();
  });
});

describe('size --assign', () => {
  test('says which lamp goes where, and leaves the spot without one that it would not shine in', async () => {
    const { code, stdout } = await size('--assign');
    expect(code).toBe(0);
    expect(stdout).toMatch(/bright\s+one\s+kept/);
    expect(stdout).toContain('Without a lamp: dim.');
    const { code: kept, stdout: json } = await size('--assign', '--json', '--must-keep');
    expect(kept).toBe(0);
    expect(JSON.parse(json)).toMatchObject({ schema: 1, assign: { kept: 1, empty: ['dim'], drawer: [] } });
  });
});
