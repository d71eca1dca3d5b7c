import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runMain } from './runMain.ts';
import { type SmallGarden, smallGarden } from './smallGarden.ts';

let garden: SmallGarden;
beforeAll(() => {
  garden = smallGarden();
});
afterAll(() => garden.remove());

const run = (argv: readonly string[], world: { tty?: boolean; env?: Record<string, string> } = {}) =>
  runMain(argv, { cwd: garden.folder, ...world });

/** A mistake: exit code 2, nothing on stdout, two lines on stderr; the lines. */
async function mistake(argv: readonly string[]): Promise<string> {
  const { code, stdout, stderr } = await run(argv);
  expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  expect(stderr.trimEnd().split('\n'), stderr).toHaveLength(2);
  return stderr;
}

const ESCAPE = String.fromCharCode(27);

describe('a mistake on the command line gives two lines, a suggestion and exit code 2', () => {
  test('an unknown option', async () => {
    const text = await mistake(['run', 'small.yaml', '--jsom']);
    expect(text).toContain('unknown option --jsom');
    expect(text).toContain('did you mean --json?');
  });

  test('an unknown option far from any, and a known one of another command', async () => {
    expect(await mistake(['run', 'small.yaml', '--watts'])).toContain('--must-keep');
    expect(await mistake(['check', 'small.yaml', '--hours'])).toContain('an option of check: --json,');
  });

  test('a switch turned off, or given a value', async () => {
    expect(await mistake(['run', 'small.yaml', '--no-json'])).toContain('unknown option --no-json');
    expect(await mistake(['run', 'small.yaml', '--json=maybe'])).toContain('a switch, which takes none');
  });

  test('an option without its value', async () => {
    expect(await mistake(['run', 'small.yaml', '--out'])).toContain(
      '--out without a value; expected a folder',
    );
    for (const words of [['--out='], ['--out', ''], ['--out', '', '--out', 'results']])
      expect(await mistake(['run', 'small.yaml', ...words])).toContain('--out without a value');
  });

  test('an unknown command', async () => {
    expect(await mistake(['rum', 'small.yaml'])).toContain('did you mean run?');
  });

  test('no command, no scenario, a word too many', async () => {
    expect(await mistake([])).toContain(
      'expected run, compare, weather, climate, size, life, fit, init, check',
    );
    expect(await mistake(['run'])).toContain('expected SCENARIO');
    expect(await mistake(['check'])).toContain('expected SCENARIO or --schema');
    expect(await mistake(['run', 'small.yaml', 'other.yaml'])).toContain('a further word "other.yaml"');
    expect(await mistake(['check', 'small.yaml', '--schema'])).toContain('one of them');
  });
});

describe('help and version', () => {
  test('help leads with examples, for the program and for every command', async () => {
    for (const argv of [['--help'], ['help'], ['run', '--help'], ['check', '--help']]) {
      const { code, stdout, stderr } = await run(argv);
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      expect(stdout.startsWith('Examples\n')).toBe(true);
      expect(stdout).toContain(`\n  longnight ${argv.length > 1 ? argv[0] : 'run'} `);
      for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    }
  });

  test('help of a command names each of its options', async () => {
    const { stdout } = await run(['run', '--help']);
    for (const option of ['--json', '--out', '--must-keep', '--hours', '--weather'])
      expect(stdout).toContain(option);
  });

  test('the version is that of package.json', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
    expect(await run(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });
});

describe('run', () => {
  test('says the verdict, ends with the path of its outputs, and gives 0 though the promise is not kept', async () => {
    const { code, stdout, stderr } = await run(['run', 'small.yaml']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('one on bright');
    const folder = join('out', 'small');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(join(folder, 'report.html'));
    expect(readdirSync(join(garden.folder, folder)).sort()).toEqual([
      'hours.csv',
      'nights.csv',
      'report.html',
      'summary.json',
    ]);
  });

  test('has the dim spot fail on more nights than the bright one', async () => {
    const { stdout } = await run(['run', 'small.yaml', '--json']);
    const [bright, dim] = JSON.parse(stdout).trials;
    const failed = (trial: { winters: { failed_nights: number }[] }) => trial.winters[0]!.failed_nights;
    expect(bright.spot).toBe('bright');
    expect(failed(dim)).toBeGreaterThan(failed(bright));
  });

  test('with --json prints the bytes of summary.json and nothing else; the paths go to stderr', async () => {
    const { code, stdout, stderr } = await run(['run', 'small.yaml', '--json', '--out', 'results']);
    expect(code).toBe(0);
    const folder = join('results', 'small');
    expect(stdout).toBe(readFileSync(join(garden.folder, folder, 'summary.json'), 'utf8'));
    expect(stderr.trimEnd().split('\n')).toEqual(
      ['nights.csv', 'hours.csv', 'report.html', 'summary.json'].map((file) => join(folder, file)),
    );
    expect(JSON.parse(stdout).schema).toBe(1);
  });

  test('with --figures writes the pictures as SVG files, and names them with --json', async () => {
    const { code, stderr } = await run(['run', 'small.yaml', '--json', '--figures', 'pictures']);
    expect(code).toBe(0);
    const names = readdirSync(join(garden.folder, 'pictures'));
    expect(names).toContain('1-bright-one-nights.svg');
    expect(names.every((name) => stderr.includes(join('pictures', name)))).toBe(true);
    for (const name of names) {
      expect(readFileSync(join(garden.folder, 'pictures', name), 'utf8')).toMatch(/^<\?xml[\s\S]*<\/svg>\n$/);
    }
  });

  test('names no absolute path in summary.json and report.html', async () => {
    const { stdout } = await run(['run', join(garden.folder, 'small.yaml'), '--json']);
    expect(stdout).not.toContain(garden.folder);
    const page = readFileSync(join(garden.folder, 'out', 'small', 'report.html'), 'utf8');
    expect(page).not.toContain(garden.folder);
  });

  test('colours only on a terminal, and not there where NO_COLOR is set', async () => {
    const plain = await run(['run', 'small.yaml']);
    const coloured = await run(['run', 'small.yaml'], { tty: true });
    const refused = await run(['run', 'small.yaml'], { tty: true, env: { NO_COLOR: '1' } });
    expect(plain.stdout).not.toContain(ESCAPE);
    expect(coloured.stdout).toContain(ESCAPE);
    expect(refused.stdout).toBe(plain.stdout);
  });

  test('shows progress on stderr, only where a person watches', async () => {
    expect((await run(['run', 'small.yaml'], { tty: true })).stderr).toContain('trial 2 of 2');
    expect((await run(['run', 'small.yaml'])).stderr).toBe('');
  });

  test('with a missing scenario names the file, suggests one, and gives 2 without a stack', async () => {
    const { code, stdout, stderr } = await run(['run', 'smal.yaml']);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^FILE_MISSING {2}.*smal\.yaml/);
    expect(stderr).toContain('did you mean "small.yaml"');
    expect(stderr).not.toContain('    at ');
  });

  test('gives 1 and one line where the disk refuses, and says so', async () => {
    mkdirSync(join(garden.folder, 'blocked'));
    writeFileSync(join(garden.folder, 'blocked', 'small'), 'a file where the results go');
    const { code, stderr } = await run(['run', 'small.yaml', '--out', 'blocked']);
    expect(code).toBe(1);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(/^longnight failed: .*blocked/);
    expect(stderr).not.toContain('defect');
  });

  test('refuses a folder below a file before it runs', async () => {
    for (const [option, folder] of [
      ['--out', 'log.csv'],
      ['--out', 'log.csv/results/deeper'],
      ['--figures', 'log.csv/pictures'],
    ] as const)
      expect(await mistake(['run', 'small.yaml', option, folder])).toMatch(
        /got --\w+ log\.csv.*, where .*log\.csv is a file; expected a folder, or a place where one can be made\. Fix: /,
      );
  });

  test('shows the stack of a failure only with LONGNIGHT_TRACE=1', async () => {
    const traced = await run(['run', 'small.yaml', '--out', 'blocked'], { env: { LONGNIGHT_TRACE: '1' } });
    expect(traced.stderr).toContain('    at ');
  });
});

describe('check', () => {
  test('prints every value and where it came from', async () => {
    const { code, stdout, stderr } = await run(['check', 'small.yaml']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('latitude_deg');
    expect(stdout).toMatch(/line \d+/);
  });

  test('with --json prints the same as JSON', async () => {
    const { code, stdout } = await run(['check', 'small.yaml', '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ name: 'small', resolved: { format: 1, seed: 1 } });
  });

  test('says what the trials come to, and what they would with the low and the high values of the parts', async () => {
    const { stdout } = await run(['check', 'small.yaml']);
    expect(stdout).toMatch(
      /\nVerdict\n {2}one on bright: fails \d+ of 1\d nights; with the low values of its generic parts \d+, with/,
    );
    const { verdicts } = JSON.parse((await run(['check', 'small.yaml', '--json'])).stdout);
    expect(verdicts.map(({ spot }: { spot: string }) => spot)).toEqual(['bright', 'dim']);
    expect(verdicts[1].poor.failedNights).toBeGreaterThanOrEqual(verdicts[1].assumed.failedNights);
  });

  test('says why the trials cannot be run, with the values all the same', async () => {
    const text = readFileSync(join(garden.folder, 'small.yaml'), 'utf8');
    writeFileSync(
      join(garden.folder, 'holes.csv'),
      'start_utc,light_W_m2\n2025-12-10T00:00Z,0\n2025-12-10T05:00Z,1\n',
    );
    writeFileSync(join(garden.folder, 'holes.yaml'), text.replace('log.csv', 'holes.csv'));
    const { code, stdout } = await run(['check', 'holes.yaml']);
    expect(code).toBe(0);
    expect(stdout).toContain('latitude_deg');
    expect(stdout).toMatch(/\nVerdict\n {2}not run: WEATHER_STAMP_UNREADABLE holes.csv:3/);
    expect(JSON.parse((await run(['check', 'holes.yaml', '--json'])).stdout).verdicts).toBeNull();
  });

  test('with --sensitivity says which assumptions move the verdict most, of all trials or of one', async () => {
    const { code, stdout } = await run(['check', 'small.yaml', '--sensitivity']);
    expect(code).toBe(0);
    expect(stdout).toContain('What the verdict of small hangs on (all 2 trials together)');
    expect(stdout).toContain('\n1 ');
    const one = await run([
      'check',
      'small.yaml',
      '--sensitivity',
      '--spot',
      'dim',
      '--lamp',
      'one',
      '--json',
    ]);
    const { schema, trials, assumptions } = JSON.parse(one.stdout);
    expect(schema).toBe(1);
    expect(trials).toMatchObject([{ spot: 'dim', lamp: 'one' }]);
    expect(assumptions.length).toBeGreaterThan(15);
    const watched = await run(['check', 'small.yaml', '--sensitivity'], { tty: true });
    expect(watched.stderr).toContain(`assumption 1 of ${assumptions.length}`);
  });

  test('refuses a spot that there is not, one without --sensitivity, and two ways at once', async () => {
    expect(await mistake(['check', 'small.yaml', '--sensitivity', '--spot', 'bride'])).toContain(
      '--spot bright',
    );
    expect(await mistake(['check', 'small.yaml', '--spot', 'dim'])).toContain('without --sensitivity');
    expect(await mistake(['check', 'small.yaml', '--bench', '--sensitivity'])).toContain('one of them');
  });

  test('with --schema prints a JSON Schema that knows the sections of a scenario', async () => {
    const { code, stdout } = await run(['check', '--schema']);
    expect(code).toBe(0);
    expect(Object.keys(JSON.parse(stdout).properties)).toEqual(
      expect.arrayContaining(['format', 'site', 'weather', 'promise', 'spots', 'lamps']),
    );
  });
});
