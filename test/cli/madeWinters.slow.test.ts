import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';

const folder = mkdtempSync(join(tmpdir(), 'made-'));
const climate = (clearness: number) => `
  climate:
    clearness: [${Array(12).fill(clearness).join(', ')}]
    air_degC: [1, 1, 4, 8, 12, 15, 17, 17, 14, 10, 5, 2]
    distribution: bendt`;
const scenario = (weather: string) => `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin }
weather:${weather}
promise: { from: dusk, hours: 4, least_lumen: 0.5 }
spots: { lawn: {} }
lamps:
  one:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    schedule: { on: dusk, hours: 4 }
`;
beforeAll(() => {
  writeFileSync(join(folder, 'months.yaml'), scenario(climate(0.3)));
  writeFileSync(join(folder, 'other.yaml'), scenario(climate(0.35)));
  writeFileSync(
    join(folder, 'year.yaml'),
    scenario(` { file: ${resolve('data-samples/invented-year.csv')} }`),
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = (...argv: string[]) => runMain(argv, { cwd: folder });

describe('--winters', () => {
  test('says the odds, in text and JSON alike, and shows the typical made winter', async () => {
    const { code, stdout, stderr } = await run('run', 'months.yaml', '--winters', '12', '--batch', '3');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('How likely: 12 made winters');
    expect(stdout).toContain('Of 3 lamps built as one on lawn');
    expect(stdout.replaceAll('\n', ' ')).toContain('the typical one of 12 made winters');
    expect(stdout.split('\n').filter((line) => line.length > 100)).toEqual([]);
    const { odds } = JSON.parse(readFileSync(join(folder, 'out', 'months', 'summary.json'), 'utf8'));
    const [trial] = odds.trials;
    expect(trial).toMatchObject({ spot: 'lawn', lamp: 'one', winters: 12 });
    expect(trial.keeps.low).toBeLessThanOrEqual(trial.keeps.share);
    expect(trial.failing_share).toHaveLength(365);
    expect(Math.max(...trial.failing_share)).toBeLessThanOrEqual(1);
    expect(readFileSync(join(folder, 'out', 'months', 'report.html'), 'utf8')).toContain(
      'How likely is a bad winter',
    );
  });

  test('of a climate tells wherever nights are shown that their winter was made', async () => {
    const shown =
      'the typical one of 10 made winters, its dates those of any year; none of its days has been.';
    const page = (name: string) => readFileSync(join(folder, 'out', name, 'report.html'), 'utf8');
    const { stdout } = await run('run', 'months.yaml', '--winters', '10');
    expect(stdout.replaceAll('\n', ' ')).toContain(shown);
    expect(stdout.replaceAll('\n', ' ')).toContain('as far as the months are as stated');
    expect(stdout.replaceAll('\n', ' ')).not.toContain('winters on file');
    expect(page('months')).toContain(shown);
    const compared = await run('compare', 'months.yaml', '--winters', '10');
    expect(compared.stdout.replaceAll('\n', ' ')).toContain(shown);
    expect(compared.stdout).not.toContain('logged');
    expect(page('compare-months')).toContain(shown);
  });

  test('gives the same bytes again', async () => {
    const one = await run('run', 'months.yaml', '--winters', '10', '--json');
    const again = await run('run', 'months.yaml', '--winters', '10', '--json');
    expect(again.stdout).toBe(one.stdout);
  });

  test('decides with a share of winters', async () => {
    const { code } = await run('run', 'months.yaml', '--winters', '10', '--must-keep', '1');
    expect(code).toBe(3);
    const { code: few } = await run('run', 'year.yaml', '--must-keep', '0.9');
    expect(few).toBe(2);
  });

  test.each([
    [['months.yaml', '--winters', '0'], /--winters 0/],
    [['months.yaml', '--winters', '1e9'], /--winters 1e9|--winters 1000000000/],
    [['months.yaml', '--winters', '12.5'], /whole number/],
    [['months.yaml', '--batch', '4'], /--winters 300 --batch 4/],
    [['year.yaml', '--winters', '20'], /no whole winter|one whole winter|winters/],
    [['months.yaml'], /--winters 300/],
  ])('refuses %s', async (words, message) => {
    const { code, stdout, stderr } = await run('run', ...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/ at .*\.(ts|js)|defect/);
  });

  test('does not hold two climates against each other', async () => {
    const { code, stderr } = await run('compare', 'months.yaml', 'other.yaml', '--winters', '10');
    expect(code).toBe(2);
    expect(stderr).toContain('two climates');
  });

  test('does not hold lamps against each other over winters that were drawn apart', async () => {
    writeFileSync(join(folder, 'seed.yaml'), `${scenario(climate(0.3))}seed: 2\n`);
    const { code, stderr } = await run('compare', 'months.yaml', 'seed.yaml', '--winters', '10');
    expect(code).toBe(2);
    expect(stderr).toContain('one seed');
  });

  test('broken off says what the winters so far say, by both ways, and as JSON alone where asked', async () => {
    writeFileSync(join(folder, 'both.yaml'), scenario(climate(0.3).replace(/distribution.*/, '')));
    const broken = (...more: string[]) =>
      runMain(['run', 'both.yaml', '--winters', '400', ...more], {
        cwd: folder,
        tty: true,
        env: { NO_COLOR: '1' },
        signalAt: 'batch of winters 2 of',
      });
    const text = await broken();
    expect(text.code).toBe(130);
    expect(text.stdout.replaceAll('\n', ' ')).toContain('without what was not run yet');
    const { code, stdout } = await broken('--json');
    expect(code).toBe(130);
    const { interrupted, odds } = JSON.parse(stdout);
    expect({ interrupted, asked: odds.asked }).toEqual({ interrupted: true, asked: 400 });
    expect(odds.trials[0].second_opinion).toMatchObject({ way: 'hollands-huget' });
  });

  test('answers Ctrl-C with what there is, and writes nothing', async () => {
    const child = spawn(
      process.execPath,
      [resolve('dist/cli/main.js'), 'run', 'months.yaml', '--winters', '90000', '--out', 'broken'],
      {
        cwd: folder,
        env: { PATH: process.env.PATH ?? '' },
      },
    );
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
    });
    child.stderr.on('data', (text) => {
      said += text;
    });
    setTimeout(() => child.kill('SIGINT'), 6000);
    const code = await new Promise((tell) => child.on('close', tell));
    expect(code).toBe(130);
    expect(said).toContain('Interrupted');
    expect(existsSync(join(folder, 'broken', 'months'))).toBe(false);
  });
});
