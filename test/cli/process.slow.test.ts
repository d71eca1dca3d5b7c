import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

/** Built by `npm test` before the tests run. */
const PROGRAM = resolve('dist/cli/main.js');

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
});
afterAll(() => garden.remove());

function start(
  argv: readonly string[],
  options: { cwd?: string; env?: Record<string, string>; program?: string } = {},
) {
  const { cwd = garden.folder, env = {}, program = PROGRAM } = options;
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...argv], {
    cwd,
    env: { PATH: process.env.PATH ?? '', ...env },
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

describe('the built program as a process', () => {
  test('begins with the line that lets a shell run it', () => {
    expect(readFileSync(PROGRAM, 'utf8').split('\n')[0]).toBe('#!/usr/bin/env node');
  });

  test('runs through a link, as npm installs it', () => {
    const link = join(garden.folder, 'longnight');
    symlinkSync(PROGRAM, link);
    const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
    expect(start(['--version'], { program: link })).toEqual({
      status: 0,
      stdout: `${version}\n`,
      stderr: '',
    });
  });

  test('answers a mistake with exit code 2 and writes no colour into a pipe', () => {
    expect(start(['rum'])).toMatchObject({ status: 2, stdout: '' });
    const { status, stdout } = start(['run', 'small.yaml'], { env: { FORCE_COLOR: '1' } });
    expect(status).toBe(0);
    expect(stdout).not.toContain(String.fromCharCode(27));
  });

  test('hands all of a long JSON to a pipe', () => {
    const { status, stdout } = start(['run', 'small.yaml', '--json']);
    expect(status).toBe(0);
    expect(stdout).toBe(readFileSync(join(garden.folder, 'out', 'small', 'summary.json'), 'utf8'));
  });

  test('writes the same bytes under another time zone, language and working folder', () => {
    const elsewhere = join(garden.folder, 'elsewhere');
    mkdirSync(elsewhere);
    const here = start(['run', 'small.yaml', '--out', 'one'], { env: { TZ: 'UTC', LANG: 'C' } });
    const there = start(['run', '../small.yaml', '--out', 'two'], {
      cwd: elsewhere,
      env: { TZ: 'Pacific/Apia', LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8' },
    });
    expect([here.status, there.status]).toEqual([0, 0]);
    const [one, two] = [join(garden.folder, 'one', 'small'), join(elsewhere, 'two', 'small')];
    expect(readdirSync(two)).toEqual(readdirSync(one));
    for (const file of readdirSync(one)) {
      expect(readFileSync(join(two, file)).equals(readFileSync(join(one, file))), file).toBe(true);
    }
  });
});
