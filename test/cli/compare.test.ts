import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
  // The same garden under another name: the file's.
  copyFileSync(join(garden.folder, 'small.yaml'), join(garden.folder, 'other.yaml'));
});
afterAll(() => garden.remove());

const run = (argv: readonly string[], world: { tty?: boolean } = {}) =>
  runMain(argv, { cwd: garden.folder, ...world });

describe('compare', () => {
  test('shows the spots side by side, ends with the path of its output, and gives 0', async () => {
    const { code, stdout, stderr } = await run(['compare', 'small.yaml']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^ {2}one on bright +\w.*\n {2}one on dim +\w/m);
    expect(stdout).toContain('What limits each spot');
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    const folder = join('out', 'compare-small');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(join(folder, 'report.html'));
    expect(readdirSync(join(garden.folder, folder)).sort()).toEqual(['compare.json', 'report.html']);
  });

  test('with --figures writes its pictures as SVG files', async () => {
    const { code, stdout } = await run(['compare', 'small.yaml', '--figures', 'pictures']);
    expect(code).toBe(0);
    expect(readdirSync(join(garden.folder, 'pictures')).sort()).toEqual(['light.svg', 'nights.svg']);
    expect(stdout).toContain('2 pictures in pictures\n');
  });

  test('with --details makes a table for each lamp, or for each spot', async () => {
    const spots = await run(['compare', 'small.yaml', '--details']);
    expect(spots.stdout).toContain('one, spot by spot');
    expect(spots.stdout).toMatch(/bright +dim/);
    const { stdout } = await run(['compare', 'small.yaml', '--by', 'lamp', '--details']);
    expect(stdout).toContain('Lamps on bright');
    expect(stdout).toContain('Lamps on dim');
  });

  test('with --json prints the bytes of compare.json and nothing else; the path goes to stderr', async () => {
    const { code, stdout, stderr } = await run([
      'compare',
      'small.yaml',
      'other.yaml',
      '--json',
      '--out',
      'r',
    ]);
    expect(code).toBe(0);
    const folder = join('r', 'compare-small+other');
    expect(stdout).toBe(readFileSync(join(garden.folder, folder, 'compare.json'), 'utf8'));
    expect(stderr).toBe(`${join(folder, 'report.html')}\n${join(folder, 'compare.json')}\n`);
    const value = JSON.parse(stdout);
    expect(value).toMatchObject({ schema: 1, by: 'spot', same_weather: true });
    expect(value.scenarios.map(({ name }: { name: string }) => name)).toEqual(['small', 'other']);
    expect(value.tables).toEqual([{ name: 'one', trials: [0, 1, 2, 3] }]);
    expect(stdout).not.toContain(garden.folder);
  });

  test('gives the same bytes a second time', async () => {
    const first = await run(['compare', 'small.yaml', '--json']);
    expect(await run(['compare', 'small.yaml', '--json'])).toEqual(first);
  });

  test('refuses two scenarios of the same name before it runs any, and writes nothing', async () => {
    const { code, stdout, stderr } = await run(['compare', 'small.yaml', 'small.yaml', '--out', 'twice'], {
      tty: true,
    });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^USAGE {2}command line\n {2}got two scenarios named small/);
    expect(stderr).not.toContain('trial');
    expect(readdirSync(garden.folder)).not.toContain('twice');
  });

  test('refuses another --by with what could stand there', async () => {
    const { code, stdout, stderr } = await run(['compare', 'small.yaml', '--by', 'lamps']);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('got --by lamps; expected --by spot or --by lamp. Fix: did you mean --by lamp?');
    expect((await run(['compare', 'small.yaml', '--by'])).stderr).toContain('--by without a value');
    expect((await run(['compare'])).stderr).toContain('expected SCENARIO...');
  });

  test('counts the trials of all scenarios, only where a person watches', async () => {
    const { stderr } = await run(['compare', 'small.yaml', 'other.yaml'], { tty: true });
    expect(stderr).toContain('trial 4 of 4');
  });

  test('with --must-keep gives 3 where a promise is broken', async () => {
    const year = smallGarden(365);
    const { code } = await runMain(['compare', 'small.yaml', '--must-keep'], { cwd: year.folder });
    const without = await runMain(['compare', 'small.yaml'], { cwd: year.folder });
    year.remove();
    expect({ code, without: without.code }).toEqual({ code: 3, without: 0 });
  });

  test('help leads with examples', async () => {
    const { code, stdout } = await run(['compare', '--help']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Examples\n {2}# .*\n {2}longnight compare /);
    expect(stdout).toContain('longnight compare SCENARIO...');
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });
});

test('of an option typed twice the last counts', async () => {
  const { code, stderr } = await run([
    'compare',
    'small.yaml',
    '--json',
    '--out',
    'first',
    '--out',
    'last',
    '--json',
  ]);
  expect(code).toBe(0);
  expect(stderr).toContain(join('last', 'compare-small'));
});
