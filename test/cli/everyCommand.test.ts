import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { COMMANDS } from '../../sim/cli/commands.ts';
import { choiceGarden } from '../sizing/choiceGarden.ts';
import { runMain } from './runMain.ts';
import type { SmallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = choiceGarden();
});
afterAll(() => garden.remove());

const SCENARIO = resolve('scenarios/bench-readings.yaml');
/** Every way to JSON of every command that has --json; climate by a record that is too short, which is JSON too. */
const WAYS: Readonly<Record<string, readonly string[][]>> = {
  run: [['small.yaml']],
  compare: [['small.yaml']],
  weather: [[resolve('data-samples/invented-year.csv'), '--place', '54,10']],
  climate: [[resolve('data-samples/invented-year.csv'), '--place', '54,10']],
  size: [
    ['small.yaml', '--spot', 'bright'],
    ['small.yaml', '--find', 'promise', '--spot', 'bright'],
    ['small.yaml', '--assign'],
  ],
  life: [['small.yaml', '--years', '1', '--spot', 'bright']],
  fit: [[SCENARIO], ['--discharge', resolve('data-samples/discharge-curve.csv')]],
  check: [
    ['small.yaml'],
    ['small.yaml', '--bench'],
    ['small.yaml', '--sensitivity', '--spot', 'bright'],
    ['small.yaml', 'small.yaml'],
  ],
};
const BEGINNING = /^\{\n {2}"schema": 1,\n {2}"longnight": "\d+\.\d+\.\d+",\n {2}"node_major": \d+,\n/;

const filesOf = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();

test('these are all commands that print JSON', () => {
  const printing = COMMANDS.filter(({ options }) => options.includes('json'));
  expect(Object.keys(WAYS).sort()).toEqual(printing.map(({ name }) => name).sort());
});

describe('JSON begins with its schema and what made it', () => {
  for (const [command, ways] of Object.entries(WAYS))
    for (const words of ways)
      test([command, ...words].map((word) => word.replace(/^.*\//, '')).join(' '), async () => {
        const { stdout } = await runMain([command, ...words, '--json'], { cwd: garden.folder });
        expect(stdout).toMatch(BEGINNING);
        JSON.parse(stdout);
      });

  test('in files too', () => {
    const written = filesOf(garden.folder).filter((name) => name.endsWith('.json'));
    expect(written.map((name) => name.replace(/^.*[/\\]/, '')).sort()).toEqual([
      'compare.json',
      'life.json',
      'size.json',
      'summary.json',
    ]);
    for (const name of written)
      expect(readFileSync(join(garden.folder, name), 'utf8'), name).toMatch(BEGINNING);
  });
});

describe('--no-files', () => {
  for (const { name } of COMMANDS.filter(({ options }) => options.includes('no-files'))) {
    const argv = [name, ...WAYS[name]![0]!, '--no-files'];
    test(`of ${name} writes nothing, and says the same`, async () => {
      const fresh = choiceGarden();
      const run = (...more: string[]) => runMain([...argv, ...more], { cwd: fresh.folder });
      const before = filesOf(fresh.folder);
      const text = await run();
      const json = await run('--json');
      expect({ code: text.code, files: filesOf(fresh.folder) }).toEqual({ code: 0, files: before });
      expect(text.stdout).not.toMatch(
        /report\.html|Beside the page|(nights|hours|designs|life)\.csv|(summary|compare|size|life)\.json/,
      );
      expect(json.stderr).toBe('');
      const { files, ...said } = JSON.parse(json.stdout);
      expect(files ?? {}).toEqual({});
      const written = await runMain([...argv.slice(0, -1), '--json'], { cwd: fresh.folder });
      expect({ ...JSON.parse(written.stdout), files: undefined }).toEqual({ ...said, files: undefined });
      fresh.remove();
    });
  }

  test('and a place for files are refused together', async () => {
    for (const more of [
      ['--out', 'there'],
      ['--figures', 'there'],
    ]) {
      const { code, stderr } = await runMain(['run', 'small.yaml', '--no-files', ...more], {
        cwd: garden.folder,
      });
      expect(code).toBe(2);
      expect(stderr).toContain(`--no-files and ${more[0]}`);
    }
  });
});

describe('a place where no folder can be made is refused before the work', () => {
  for (const { name } of COMMANDS.filter(({ options }) => options.includes('out')))
    for (const option of ['--out', '--figures'])
      for (const place of ['small.yaml', 'small.yaml/x/y'])
        test(`${name} ${option} ${place}`, async () => {
          const argv = [name, ...WAYS[name]![0]!, option, place];
          const { code, stdout, stderr } = await runMain(argv, { cwd: garden.folder });
          expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
          const file = join(garden.folder, 'small.yaml');
          const fix = option === '--out' ? '--out results' : '--figures pictures';
          expect(stderr).toBe(
            `USAGE  command line\n  got ${option} ${place}, where ${file} is a file; ` +
              `expected a folder, or a place where one can be made. Fix: ${fix}\n`,
          );
        });

  // There making folders upon folders has no end.
  test.runIf(existsSync('/proc/self'))('in a file system that takes none', async () => {
    for (const place of ['/proc', '/proc/x/y']) {
      const { code, stderr } = await runMain(['run', 'small.yaml', '--out', place], { cwd: garden.folder });
      expect(code).toBe(2);
      expect(stderr).toContain(`got --out ${place}, where no folder can be made in /proc; expected a folder`);
    }
  });

  test('weather --write', async () => {
    const argv = ['weather', ...WAYS.weather![0]!, '--write', 'small.yaml/x.csv'];
    const { code, stderr } = await runMain(argv, { cwd: garden.folder });
    expect(code).toBe(2);
    expect(stderr).toContain('got --write small.yaml/x.csv, where ');
  });
});

test('a folder that is not there yet is made, with those that it lies in', async () => {
  const argv = ['run', 'small.yaml', '--out', 'not/there'];
  expect((await runMain(argv, { cwd: garden.folder })).code).toBe(0);
  expect(filesOf(join(garden.folder, 'not', 'there'))).not.toEqual([]);
});
