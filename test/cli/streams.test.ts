import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
});
afterAll(() => garden.remove());

const export_csv = () => readFileSync(resolve('data-samples/invented-year-semicolon.csv'), 'utf8');

describe('- in place of a file', () => {
  test('is weather on standard input, and after --write standard output with all talk on stderr', async () => {
    const { code, stdout, stderr } = await runMain(['weather', '-', '--place', '54,10', '--write', '-'], {
      input: export_csv(),
    });
    expect(code).toBe(0);
    const [headings, first, ...rest] = stdout.trimEnd().split('\n');
    expect(headings).toMatch(/^start_utc,ghi_W_m2,.*weather_mark/);
    expect(first).toMatch(/^2025-01-01T00:00:00Z,0,/);
    expect(rest).toHaveLength(8759);
    expect(stderr).toMatch(/^Usable for a run: one whole year/);
    const again = await runMain(['weather', '-', '--write=-'], { input: stdout });
    expect(again.stdout).toBe(stdout);
  });

  test('is a scenario, which names its files from where the user stands', async () => {
    const input = readFileSync(join(garden.folder, 'small.yaml'), 'utf8');
    const { code, stdout } = await runMain(['run', '-', '--json'], { cwd: garden.folder, input });
    expect(code).toBe(0);
    const { trials } = JSON.parse(stdout);
    expect(trials.map(({ spot }: { spot: string }) => spot)).toEqual(['bright', 'dim']);
  });

  test('that holds nothing is refused by its name', async () => {
    const { code, stderr } = await runMain(['check', '-'], { cwd: garden.folder });
    expect(code).toBe(2);
    expect(stderr).toMatch(/^FILE_EMPTY {2}-/);
  });

  test('cannot take JSON and the plain form at once', async () => {
    const { code, stderr } = await runMain(['weather', '-', '--write', '-', '--json'], { input: 'a,b\n' });
    expect(code).toBe(2);
    expect(stderr).toContain('--json and --write -');
  });
});

describe('--write', () => {
  test('replaces what is there only with --force', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'write-'));
    writeFileSync(join(folder, 'export.csv'), export_csv());
    writeFileSync(join(folder, 'kept.csv'), 'mine');
    const write = (...more: string[]) =>
      runMain(['weather', 'export.csv', '--place', '54,10', '--write', 'kept.csv', ...more], { cwd: folder });
    const { code, stderr } = await write();
    expect({ code, kept: readFileSync(join(folder, 'kept.csv'), 'utf8') }).toEqual({ code: 2, kept: 'mine' });
    expect(stderr).toContain('or --force to replace it');
    expect((await write('--force')).code).toBe(0);
    expect(readFileSync(join(folder, 'kept.csv'), 'utf8')).toMatch(/^start_utc,/);
    rmSync(folder, { recursive: true });
  });
});

describe('habits of a command line', () => {
  test('-h, -V and help stand for --help and --version', async () => {
    const said = async (...argv: string[]) => (await runMain(argv)).stdout;
    expect(await said('-V')).toBe(await said('--version'));
    expect(await said('run', '-h')).toBe(await said('run', '--help'));
    expect(await said('help', 'run')).toBe(await said('run', '--help'));
    expect(await said('help')).toBe(await said('--help'));
    expect(await said('--help')).toMatch(/Exit codes: 0 ran; 1 failed .*NO_COLOR.*FORCE_COLOR.*COLUMNS/s);
  });

  test('an unknown option is named before a word that lacks', async () => {
    const { stderr } = await runMain(['run', '--jsno']);
    expect(stderr).toContain('an unknown option --jsno');
    expect(stderr).toContain('did you mean --json?');
  });

  test('with --json a bad input is JSON too', async () => {
    const { code, stdout, stderr } = await runMain(['run', 'none.yaml', '--json'], { cwd: garden.folder });
    expect(code).toBe(2);
    expect(JSON.parse(stdout)).toEqual({
      schema: 1,
      longnight: expect.any(String),
      node_major: expect.any(Number),
      problems: [
        {
          code: 'FILE_MISSING',
          file: 'none.yaml',
          got: expect.any(String),
          expected: expect.any(String),
          fix: expect.any(String),
        },
      ],
    });
    expect(stderr).toMatch(/^FILE_MISSING {2}none\.yaml/);
  });

  test('that JSON can be read whatever a name brings along', async () => {
    const { stdout } = await runMain(['run', 'no\u202ene.yaml', '--json'], { cwd: garden.folder });
    expect(JSON.parse(stdout).problems[0].file).toBe('no\u202ene.yaml');
  });

  test('--quiet leaves stderr to what is wrong; colours follow --no-color and FORCE_COLOR', async () => {
    const run = (argv: string[], env = {}, tty = true) =>
      runMain(['run', 'small.yaml', ...argv], { cwd: garden.folder, env, tty });
    expect((await run(['--json'])).stderr).toContain('summary.json');
    expect((await run(['--json', '--quiet'])).stderr).toBe('');
    const isColoured = async (...given: Parameters<typeof run>) =>
      (await run(...given)).stdout.includes('\u001b[');
    expect(await isColoured([])).toBe(true);
    expect(await isColoured(['--no-color'])).toBe(false);
    expect(await isColoured([], { FORCE_COLOR: '1' }, false)).toBe(true);
    expect(await isColoured([], { FORCE_COLOR: '0' })).toBe(false);
  });

  test('check takes several scenarios, says what it can of each, and gives 2 where one is refused', async () => {
    const check = (...argv: string[]) => runMain(['check', ...argv], { cwd: garden.folder });
    const one = await check('small.yaml', '--json');
    const two = await check('small.yaml', 'small.yaml', '--json');
    const { scenarios, ...made } = JSON.parse(two.stdout);
    expect(made.schema).toBe(1);
    expect(scenarios).toHaveLength(2);
    for (const each of scenarios) expect({ ...made, ...each }).toEqual(JSON.parse(one.stdout));
    const { code, stdout, stderr } = await check('none.yaml', 'small.yaml');
    expect(code).toBe(2);
    expect(stdout).toBe((await check('small.yaml')).stdout);
    expect(stderr).toMatch(/^FILE_MISSING/);
  });
});
