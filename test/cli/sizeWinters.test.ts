import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { smallGarden } from './smallGarden.ts';

const folder = mkdtempSync(join(tmpdir(), 'size-winters-'));
const scenario = (capacitances: string) => `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin }
currency: EUR
weather:
  climate:
    clearness: [0.38, 0.38, 0.4, 0.42, 0.45, 0.45, 0.43, 0.43, 0.42, 0.4, 0.36, 0.36]
    air_degC: [1, 1, 4, 8, 12, 16, 17, 17, 14, 10, 6, 3]
    distribution: bendt
promise: { from: dusk, hours: 4, least_lumen: 0.5 }
spots: { lawn: {}, porch: { cell_tilt_deg: 60, cell_bearing_deg: 180 } }
lamps:
  one:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    jar: { part: small-jar }
    schedule: { on: dusk, hours: 4 }
choices: { capacitor: { capacitance_F: ${capacitances} } }
`;
beforeAll(() => {
  writeFileSync(join(folder, 'few.yaml'), scenario('[100, 470, 680]'));
  writeFileSync(join(folder, 'many.yaml'), scenario('60..200 by 2'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A second or two alone, a minute where twenty others want the same two cores. */
const SLOWEST_MS = 180_000;

const size = (...words: string[]) => runMain(['size', ...words], { cwd: folder });
const flat = (text: string) => text.replace(/\n */g, ' ');

describe('size --winters', () => {
  test(
    'says the cheapest, whose scenario run --winters gives the same odds',
    async () => {
      const asked = ['few.yaml', '--winters', '10', '--must-keep', '0.5', '--spot', 'lawn'];
      const { code, stdout, stderr } = await size(...asked, '--json', '--lamps', '3');
      expect(code).toBe(0);
      const results = join(folder, 'out', 'size-few');
      expect(stdout).toBe(readFileSync(join(results, 'size.json'), 'utf8'));
      expect(stderr.trim().split('\n').at(-1)).toBe(join('out', 'size-few', 'size.json'));
      const { answers, winters, must_keep, shopping } = JSON.parse(stdout);
      expect(winters).toMatchObject({ made: 10, learned: 10, way: 'bendt' });
      expect(must_keep).toBe(0.5);
      expect(shopping).toHaveLength(1);
      const [{ cheapest, nearest, present, designs }] = answers;
      expect(nearest).toBeNull();
      expect(cheapest.odds.keeps.low).toBeGreaterThanOrEqual(0.5);
      expect(cheapest.failed_winters).toBeLessThanOrEqual(cheapest.winters_that_may_fail);
      expect(present.odds).toMatchObject({ spot: 'lawn', lamp: 'one', winters: 10 });
      expect(designs.whole + designs.ruled_out + designs.dearer).toBe(designs.all);
      const run = await runMain(
        ['run', join(results, cheapest.file), '--winters', '10', '--must-keep', '0.5', '--json'],
        { cwd: folder },
      );
      expect(run.code).toBe(0);
      expect(JSON.parse(run.stdout).odds.trials).toEqual([cheapest.odds]);
      const page = readFileSync(join(results, 'report.html'), 'utf8');
      expect(page).toContain('How likely is a bad winter');
      expect(page).toContain('keeps 10 of 10 made winters');
    },
    SLOWEST_MS,
  );

  test(
    'says it in plain words',
    async () => {
      const { code, stdout } = await size(
        'few.yaml',
        '--winters',
        '10',
        '--must-keep',
        '0.78',
        '--out',
        'text',
      );
      const said = flat(stdout);
      expect(said).toContain('in 78 of a hundred winters at least, by 10 that are made, from one');
      expect(said).toMatch(
        /On lawn: \d+\.\d\d EUR, keeps 10 of 10 made winters, so at least 78 of a hundred/,
      );
      expect(said).toContain('Change: capacitor');
      expect(said).toMatch(/Margin: 0 of 10 made winters fail where 0 may for 78 of a hundred; /);
      expect(said).toContain('poor parts');
      expect(stdout).toContain('How likely: 10 made winters');
      expect(stdout).toMatch(/^lawn: 3 designs, \d judged by all made winters/m);
      expect(stdout.split('\n').every((line) => line.length <= 100)).toBe(true);
      expect(code).toBe(0);
    },
    SLOWEST_MS,
  );

  test('ends with 3 where none does', async () => {
    writeFileSync(join(folder, 'small.yaml'), scenario('[60, 100]'));
    const none = await size('small.yaml', '--winters', '10', '--must-keep', '0.5', '--spot', 'lawn');
    expect(none.code).toBe(3);
    expect(flat(none.stdout)).toContain(
      'On lawn: none of 2 designs is shown to keep 50 of a hundred winters',
    );
  });

  test('ends at Ctrl-C with what is there, as a part', async () => {
    const words = ['size', 'many.yaml', '--winters', '40', '--must-keep', '0.5', '--spot', 'lawn', '--json'];
    const { code, stdout } = await runMain(words, { cwd: folder, tty: true, signalAt: 'design ' });
    expect(code).toBe(130);
    const { partial, answers } = JSON.parse(stdout);
    expect(partial).toBe(true);
    expect(answers[0].partial.settled).toBeLessThanOrEqual(answers[0].partial.all);
    expect(existsSync(join(folder, 'out', 'size-many', 'size.json'))).toBe(true);
  });

  test.each([
    [['few.yaml', '--winters', '10'], 'Fix: --winters 10 --must-keep 0.8'],
    [['few.yaml', '--winters', '10', '--must-keep'], 'without a share of them'],
    [['few.yaml', '--winters', '10', '--must-keep', '0.9'], 'with a climate worth 10 winters'],
    [['few.yaml', '--winters', '9', '--must-keep', '0.5'], 'expected a number from 10 to 2000'],
    [['few.yaml', '--winters', '10', '--must-keep', '0.5', '--budget', '9'], '--budget and --winters'],
    [['few.yaml', '--winters', '10', '--must-keep', '0.5', '--find', 'shade'], '--find and --winters'],
    [['few.yaml', '--winters', '10', '--must-keep', '0.5', '--assign'], '--assign and --winters'],
  ])('refuses %j before anything is run', async (words, message) => {
    const { code, stdout, stderr } = await size(...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(message);
  });

  test('is refused where light was logged on the cell', async () => {
    const garden = smallGarden();
    const { code, stderr } = await runMain(['size', 'small.yaml', '--winters', '10', '--must-keep', '0.5'], {
      cwd: garden.folder,
    });
    expect(code).toBe(2);
    expect(stderr).toContain('light that was logged on the cell');
    garden.remove();
  });
});
