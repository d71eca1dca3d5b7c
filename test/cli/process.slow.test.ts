import { spawn, spawnSync } from 'node:child_process';
import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
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
    const { status, stdout } = start(['run', 'small.yaml'], { env: { FORCE_COLOR: '' } });
    expect(status).toBe(0);
    expect(stdout).not.toContain(String.fromCharCode(27));
    expect(start(['run', 'small.yaml'], { env: { FORCE_COLOR: '1' } }).stdout).toContain(
      String.fromCharCode(27),
    );
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

describe('the exit code of a process whose answer cannot be told', () => {
  const broken = ['run', 'small.yaml', '--must-keep', '--json'];
  const bad = ['run', 'nowhere.yaml'];
  let year: SmallGarden;
  beforeAll(() => {
    year = smallGarden(365);
  });
  afterAll(() => year.remove());

  /** How it ended with such a stdout and stderr. */
  function endOf(argv: readonly string[], [stdout, stderr]: readonly ('pipe' | number)[]) {
    const child = spawn(process.execPath, [PROGRAM, ...argv], {
      cwd: year.folder,
      stdio: ['ignore', stdout, stderr],
    });
    for (const stream of [child.stdout, child.stderr]) stream?.destroy();
    return new Promise<number | null>((done) => child.on('exit', done));
  }

  test('is that of what was found where nobody reads', async () => {
    expect(await endOf(broken, ['pipe', 'pipe'])).toBe(3);
    expect(await endOf(bad, ['pipe', 'pipe'])).toBe(2);
    expect(await endOf(['--version'], ['pipe', 'pipe'])).toBe(0);
  });

  test.skipIf(!existsSync('/dev/full'))('is that of what was found where the disk is full', async () => {
    const full = openSync('/dev/full', 'w');
    expect(await endOf(broken, [full, full])).toBe(3);
    expect(await endOf(bad, [full, full])).toBe(2);
    // An answer that is lost is none.
    expect(await endOf(['--version'], [full, full])).toBe(1);
    closeSync(full);
  });
});

/** Starts a run of forty trials of a year as a process of its own, with progress as on a terminal. */
function longRun(year: SmallGarden, out: string) {
  const names = Array.from({ length: 20 }, (_, k) => `lamp${k}`);
  const [head = '', lamp = ''] = readFileSync(join(year.folder, 'small.yaml'), 'utf8').split('  one:\n');
  writeFileSync(join(year.folder, 'long.yaml'), head + names.map((name) => `  ${name}:\n${lamp}`).join(''));
  return spawn(
    process.execPath,
    ['--import', 'data:text/javascript,process.stderr.isTTY=true', PROGRAM, 'run', 'long.yaml', '--out', out],
    { cwd: year.folder, stdio: ['ignore', 'ignore', 'pipe'] },
  );
}

describe('a process that is interrupted', () => {
  let year: SmallGarden;
  beforeAll(() => {
    year = smallGarden(365);
  });
  afterAll(() => year.remove());

  /** How the run ended that was interrupted at its third trial so many times. */
  async function interruptedAtThird(out: string, times: number) {
    const child = longRun(year, out);
    let pressed = 0;
    const press = () => {
      child.kill('SIGINT');
      pressed++;
      if (pressed < times) setTimeout(press, 20);
    };
    child.stderr.on('data', (text) => {
      if (pressed === 0 && String(text).includes('trial 3 of')) press();
    });
    return new Promise<{ code: number | null; signal: string | null }>((done) =>
      child.on('exit', (code, signal) => done({ code, signal })),
    );
  }

  test('writes what is complete and gives 130', async () => {
    expect(await interruptedAtThird('part', 1)).toEqual({ code: 130, signal: null });
    const { partial, trials } = JSON.parse(
      readFileSync(join(year.folder, 'part', 'long', 'summary.json'), 'utf8'),
    );
    expect(partial.all_trials).toBe(40);
    expect(trials).toHaveLength(partial.complete_trials);
    expect(trials.length).toBeGreaterThan(2);
    expect(trials.length).toBeLessThan(40);
  });

  test('ends at once where it is interrupted again', async () => {
    expect(await interruptedAtThird('again', 9)).toEqual({ code: null, signal: 'SIGINT' });
  });
});
