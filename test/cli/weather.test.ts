import { chmodSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { knownSeries } from '../weather/recognise/knownSeries.ts';
import { runMain } from './runMain.ts';
import { rowsOf, SAMPLES, type WeatherGarden, weatherGarden, yearRows, yearText } from './weatherGarden.ts';

const PLACE = ['--place', '54,10,20'];
const sample = (name: string) => join(SAMPLES, `invented-year${name}.csv`);

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
});
afterAll(() => garden.remove());

describe('longnight weather', () => {
  it.each(['README.md', 'scenarios/README.md'])(
    'refuses a clock in the words that %s quotes',
    async (name) => {
      const root = join(SAMPLES, '..');
      const [quoted] = /^WEATHER_CLOCK .*?(?=^```$)/ms.exec(readFileSync(join(root, name), 'utf8'))!;
      const words = [
        'data-samples/invented-year-clock-off.csv',
        '--scenario',
        'scenarios/invented-garden.yaml',
      ];
      const { code, stderr } = await runMain(['weather', ...words], { cwd: root });
      expect({ code, stderr: stderr.replaceAll(SAMPLES, 'data-samples/') }).toEqual({
        code: 2,
        stderr: quoted,
      });
    },
  );

  it('understands a file that states its place, exit 0, in at most 100 columns', async () => {
    const { code, stdout, stderr } = await garden.run('weather', sample('-semicolon'), '--details');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('column "Global radiation [J/cm2]" in J/cm2, as its heading says');
    expect(stdout).toMatch(/the sun agrees, to [1-9] minutes?;/);
    expect(stdout).toMatch(/One whole year, 2025-01-01 00:00 UTC to 2026-01-01 00:00 UTC/);
    // The first lines name the file, whose path may be long.
    const long = stdout.split('\n').filter((line) => line.length > 100 && !line.includes(SAMPLES));
    expect(long).toEqual([]);
  });

  it('answers in at most 12 lines of 100 columns: for what, how it was read, and the next command', async () => {
    const words = ['weather', sample('-tab'), ...PLACE, '--zone', 'UTC'];
    const { code, stdout } = await garden.run(...words);
    expect(code).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(12);
    expect(lines[0]).toBe('Usable for a run: one whole year, 2025-01-01 to 2026-01-01.');
    for (const said of [
      '8760 hours',
      '54, longitude 10, 20 m',
      '(W/m2)" in W/m2',
      '963 kWh/m2 a year; usual there: 769',
      '8 of 8760',
    ])
      expect(stdout).toContain(said);
    expect(lines.filter((line) => line.length > 100 && !line.includes(SAMPLES))).toEqual([]);
    expect(lines.at(-2)).toMatch(
      /^Next: longnight run SCENARIO --weather .*invented-year-tab\.csv --zone UTC$/,
    );
    const again = lines.at(-1)!.replace('More: longnight ', '').split(' ');
    const [typed, details] = [await garden.run(...again), await garden.run(...words, '--details')];
    expect(typed).toEqual(details);
  });

  it.each(['UTC', '+02:00', '-03:00'])(
    'dates a record of days as its file does, its days of %s',
    async (zone) => {
      const days = join(SAMPLES, 'invented-day-sums.csv');
      const { stdout } = await garden.run('weather', days, '--zone', zone);
      expect(stdout).toMatch(/^Usable for a run: one whole year, 2025-01-01 to 2026-01-01\.\n/);
    },
  );

  it('calls a winter alone good for a run, and asks which of two stations is meant', async () => {
    const winter = await garden.run('weather', join(SAMPLES, 'invented-winter.csv'));
    expect(winter.stdout).toMatch(
      /^Usable for a run: the dark months \(October to March\) of winter 2025\/26, 2025-10-01 to 2026-04-01\.\n/,
    );
    const two = join(SAMPLES, 'invented-two-stations.csv');
    expect((await garden.run('weather', two)).stderr).toContain(
      'Fix: --station Northfield, or --station "Upper Mill".',
    );
    expect((await garden.run('weather', two, '--station', 'Upper Mill')).stdout).toContain('2208 rows');
  });

  it('says with a refusal what had been understood', async () => {
    const { stderr } = await garden.run('weather', sample('-clock-off'), ...PLACE);
    expect(stderr).toMatch(
      /\nUnderstood so far: rows from line 2, cut at commas; stamps .*; ghi "ghi_W_m2" in W\/m2; .*; place 54, 10\.\n$/,
    );
  });

  it('reads civil time with its doubled and its absent hour', async () => {
    const { code, stdout } = await garden.run('weather', sample('-civil-time'), ...PLACE, '--details');
    expect(code).toBe(0);
    expect(stdout).toContain('8760 hours from 2025-01-01 00:00 UTC to 2026-01-01 00:00 UTC');
    expect(stdout).toContain('nothing was found');
  });

  it('takes a place with its units', async () => {
    const place = ['--place', '54°, 10 deg, 0.02km'];
    const told = [place, PLACE].map((words) =>
      garden.run('weather', sample('-semicolon'), ...words, '--details'),
    );
    const [withUnits, plain] = await Promise.all(told);
    expect(withUnits).toEqual(plain);
    expect(withUnits!.code).toBe(0);
  });

  it('takes the part of the record, the column and the unit that are said', async () => {
    const words = [sample(''), ...PLACE, '--json', '--from', '2025-10', '--to', '2025-10-20'];
    const { stdout } = await garden.run(
      'weather',
      ...words,
      '--column',
      'ghi=ghi_W_m2',
      '--unit',
      'ghi=W/m²',
    );
    expect(JSON.parse(stdout)).toMatchObject({ hours: 480, first_utc: '2025-10-01T00:00:00Z' });
    expect(JSON.parse(stdout).options.ghi).toContain('stated by the user');
  });

  it('asks for a place that nobody states', async () => {
    const { code, stderr } = await garden.run('weather', sample('-tab'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/SCENARIO_MISSING_KEY .*Fix: --place 54,10.*--scenario/s);
  });

  it('prints JSON and nothing else with --json', async () => {
    const { code, stdout } = await garden.run('weather', sample('-semicolon'), '--json');
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      schema: 1,
      hours: 8760,
      clock: { offset_min: 30, sun: { verdict: 'decided', pattern: 'one clock' } },
    });
  });

  it('writes nothing and keeps an earlier file where nothing of the record is usable', async () => {
    garden.add(
      'half.csv',
      yearText(
        yearRows((row, i) => (i % 24 < 9 || i % 24 > 11 ? row : row.replace(/,[^,]*,/, ',,'))).slice(0, 720),
      ),
    );
    garden.add('kept.csv', 'of an earlier time');
    const { code, stdout, stderr } = await garden.run(
      'weather',
      'half.csv',
      ...PLACE,
      '--write',
      'kept.csv',
      '--force',
    );
    expect(code).toBe(2);
    expect(stdout).toContain('Not usable for a run');
    expect(stderr).toMatch(/^WEATHER_GAP {2}half\.csv\n/);
    expect(garden.read('kept.csv')).toBe('of an earlier time');
    expect(readdirSync(garden.folder).filter((name) => name.startsWith('.unfinished'))).toEqual([]);
  });

  it.each([
    ['by another way of writing its path', './own.csv'],
    ['through a linked folder', 'linked/own.csv'],
    ['through a link to it', 'link.csv'],
  ])('does not write over a file that it reads, %s', async (_, target) => {
    const text = yearText(yearRows());
    garden.add('own.csv', text);
    for (const [link, to] of Object.entries({ linked: '.', 'link.csv': 'own.csv' })) {
      rmSync(join(garden.folder, link), { force: true });
      symlinkSync(to, join(garden.folder, link));
    }
    const { code, stderr } = await garden.run('weather', 'own.csv', ...PLACE, '--write', target);
    expect(code).toBe(2);
    expect(stderr).toContain('another file than the one that is read');
    expect(garden.read('own.csv')).toBe(text);
  });

  it.each([
    [['--marks', 'last'], '--marks last'],
    [['--believe', 'me'], '--believe me'],
    [['--place', '95,10'], '--place 95,10, the latitude 95; expected a number from -90 to 90 deg'],
    [
      ['--place', '54,10 W'],
      '--place 54,10 W, the longitude 10 W; expected a number from -180 to 180 deg. Fix: write -10;',
    ],
    [
      ['--place', '54,10,20 V'],
      '--place 54,10,20 V, the elevation 20 V; expected a number from -500 to 9000 m. Fix: write it in km, m,',
    ],
    [['--place', '54'], '--place 54; expected latitude and longitude'],
    [
      ['--latitude', '54', '--longitude=-10', '--elevation', '20'],
      '--latitude 54 --longitude -10 --elevation 20; expected the place in one option. Fix: --place 54,-10,20',
    ],
    [['--column', 'gih=x'], '--column gih=x; expected QUANTITY=VALUE, the quantity one of ghi, dni'],
    [['--column', 'ghi=x'], 'the columns "start_utc", "ghi_W_m2"'],
    [['--unit', 'ghi=J/cm3'], '--unit ghi=J/cm3; expected one of W/m2'],
    [['--from', 'May'], '--from May; expected a day or a month'],
    [
      ['--from', '2025-06', '--to', '2025-05'],
      '--from 2025-06 --to 2025-05; expected the earlier date first',
    ],
    [['--from', '2031-06'], 'no rows between --from and --to'],
    [['--zone', 'Europe/Nowhere'], '"Europe/Nowhere"'],
  ])('refuses %j with what can be typed', async (words, got) => {
    const { code, stderr } = await garden.run('weather', sample(''), ...PLACE, ...words);
    expect(code).toBe(2);
    expect(stderr).toContain(`got ${got}`);
  });
});

describe('longnight weather, given what is no weather, says so, exit 2, and prints nothing else', () => {
  const rows = yearRows();
  const mixed = rows.map((row, i) => {
    const [time, ghi, air] = row.split(',');
    return `${time};${i % 2 === 0 ? ghi!.replace('.', ',') : ghi};${air}`;
  });
  const twice = rows.map((row) => `${row},${(Number(row.split(',')[1]) * 1.3).toFixed(1)}`);
  const cases: [string, string | Uint8Array, string, string][] = [
    [
      'a spreadsheet saved as HTML',
      '<html><table><tr><td>1</td></tr></table></html>',
      'FILE_NOT_TEXT',
      'HTML',
    ],
    ['a zip archive', Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0]), 'FILE_NOT_TEXT', 'zip'],
    ['JSON of one list', '{"hourly": [1, 2, 3]}', 'WEATHER_COLUMN_MISSING', 'JSON without rows'],
    ['an image', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), 'FILE_NOT_TEXT', 'PNG'],
    [
      'a file of one column',
      rows.map((row) => row.split(',')[1]).join('\n'),
      'WEATHER_COLUMN_MISSING',
      'one column',
    ],
    ['a very long file of zeros', '0,0,0\n'.repeat(500_000), 'WEATHER_STAMP_UNREADABLE', '0,0,0'],
    [
      'a heading with no rows',
      'start utc,GHI (W/m2),air temperature (degC)\n',
      'FILE_EMPTY',
      'nothing below',
    ],
    ['nothing', '', 'FILE_EMPTY', '0 bytes'],
    [
      'two columns that could both be GHI and disagree',
      yearText(twice, 'start utc,GHI (W/m2),air temperature (degC),global radiation (W/m2)'),
      'WEATHER_AMBIGUOUS',
      '"GHI (W/m2)" and "global radiation (W/m2)"',
    ],
    [
      'a file cut in the middle of a row',
      yearText(rows).slice(0, -12),
      'FILE_TRUNCATED',
      'a last row of 1 cells',
    ],
    ['a packed file that breaks off', gzipSync(yearText(rows)).subarray(0, 30_000), 'FILE_TRUNCATED', ''],
    [
      'mixed decimal marks',
      yearText(mixed, 'start utc;GHI (W/m2);air temperature (degC)'),
      'WEATHER_VALUE_NOT_NUMBER',
      'decimal points and decimal commas',
    ],
  ];

  it.each(cases)('%s', async (_, text, code, got) => {
    garden.add('bad.csv', text);
    const answer = await garden.run('weather', 'bad.csv', ...PLACE, '--write', 'never.csv');
    expect({ code: answer.code, stdout: answer.stdout }).toEqual({ code: 2, stdout: '' });
    expect(answer.stderr).toMatch(new RegExp(`^${code} {2}bad\\.csv`));
    expect(answer.stderr).toContain(got);
    expect(answer.stderr).toContain('Fix: ');
    expect(readdirSync(garden.folder)).not.toContain('never.csv');
  });

  it('a folder', async () => {
    mkdirSync(join(garden.folder, 'station'));
    const { code, stderr } = await garden.run('weather', 'station', ...PLACE);
    expect(code).toBe(2);
    expect(stderr).toContain('FILE_UNREADABLE  station\n  got a folder');
  });

  it('a file that is not there', async () => {
    const { code, stderr } = await garden.run('weather', 'nowhere.csv', ...PLACE);
    expect(code).toBe(2);
    expect(stderr).toContain('FILE_MISSING  nowhere.csv');
  });

  it('a file without permission to read it', async () => {
    garden.add('locked.csv', yearText(rows));
    chmodSync(join(garden.folder, 'locked.csv'), 0);
    // The superuser may read anything, so the deed is done as somebody else.
    const superuser = process.geteuid?.() === 0;
    if (superuser) {
      chmodSync(garden.folder, 0o755);
      process.seteuid!(65_534);
    }
    try {
      const { code, stderr } = await garden.run('weather', 'locked.csv', ...PLACE);
      expect(code).toBe(2);
      expect(stderr).toContain('FILE_UNREADABLE  locked.csv\n  got no permission to read it');
    } finally {
      if (superuser) process.seteuid!(0);
    }
  });
});

describe('longnight run over less than a year', () => {
  /** An invented stretch from a day on. */
  const stretch = (name: string, start: string, days: number): string => {
    const { count, start_ms, ghi_W_m2, air_degC } = knownSeries(Date.parse(start), days);
    const rows = Array.from({ length: count }, (_, i) => {
      const stamp = new Date(start_ms + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
      return `${stamp},${ghi_W_m2[i]!.toFixed(1)},${air_degC[i]!.toFixed(1)}`;
    });
    return garden.add(name, yearText(rows));
  };
  const run = (file: string, start = 'cyclic', ...words: string[]) => {
    garden.scenario('part.yaml', `{ file: ${file} }`);
    garden.add('part.yaml', garden.read('part.yaml').replace('start: cyclic', `start: ${start}`));
    return garden.run('run', 'part.yaml', ...words);
  };
  const plain = (text: string) => text.replace(/\s+/g, ' ');

  it('judges a winter by its dark months, after a lead-in, and says so', async () => {
    const { code, stdout } = await run(
      stretch('winter.csv', '2024-10-01T00:00Z', 182),
      'cyclic',
      '--must-keep',
    );
    expect(plain(stdout)).toContain('Of the file: the dark months (October to March) of winter 2024/25, ');
    expect(plain(stdout)).toContain(
      'The capacitor starts as the first 21 days of the record leave it (start: lead-in), gone through once before.',
    );
    expect(plain(stdout)).toMatch(
      /single on lawn breaks its promise on \d+ of 181 nights.*, of the dark months only\./,
    );
    expect(code).toBe(3);
    const [{ winters }] = JSON.parse(garden.read('out', 'part', 'summary.json')).trials;
    expect(winters).toMatchObject([
      { winter: '2024/25', extent: 'dark-months', complete: true, nights: 181 },
    ]);
    const nights = rowsOf(garden.read('out', 'part', 'nights.csv'));
    expect(nights.filter((row) => row.complete === '1')).toHaveLength(181);
    expect(nights.map((row) => row.complete).filter((_, i, all) => i === 0 || i === all.length - 1)).toEqual([
      '0',
      '0',
    ]);
    expect(garden.read('out', 'part', 'report.html')).toContain('of the dark months only');
  });

  it('gives part of a winter no verdict, and three days what they are good for; --must-keep breaks none', async () => {
    const part = await run(stretch('part.csv', '2024-11-10T00:00Z', 60), 'lead-in', '--must-keep');
    expect(part.code).toBe(0);
    expect(plain(part.stdout)).toContain(
      'no verdict, the record holds no whole winter, nor the dark months of one',
    );
    const days = await run(stretch('days.csv', '2024-12-01T00:00Z', 3), 'cyclic');
    expect(days.code).toBe(0);
    expect(plain(days.stdout)).toContain('Of the file: 3 days, no whole winter');
    expect(plain(days.stdout)).toContain('good for holding a log of the lamp or the light on a spot against');
  });

  it('says nothing of a lead-in where the start is stated', async () => {
    const { stdout } = await run(stretch('winter.csv', '2024-10-01T00:00Z', 182), '{ capacitor_V: 1.5 }');
    expect(stdout).not.toContain('lead-in');
    expect(plain(stdout)).toContain('of the dark months only');
  });

  it('compares a winter with what the same lamp does elsewhere', async () => {
    const file = stretch('winter.csv', '2024-10-01T00:00Z', 182);
    garden.scenario('one.yaml', `{ file: ${file} }`);
    garden.add('two.yaml', garden.read('one.yaml').replace('cell_tilt_deg: 10', 'cell_tilt_deg: 60'));
    const { code, stdout } = await garden.run('compare', 'one.yaml', 'two.yaml');
    expect(code).toBe(0);
    expect(stdout).toContain('181');
  });

  it('makes one record of several files, by wildcard or one by one, in whatever order', async () => {
    const lines = garden
      .read(stretch('winter.csv', '2024-10-01T00:00Z', 182))
      .trimEnd()
      .split('\n');
    const heading = lines.shift();
    const halves = [lines.slice(0, 2000), lines.slice(2000)].map(
      (rows) => `${[heading, ...rows].join('\n')}\n`,
    );
    mkdirSync(join(garden.folder, 'halves'));
    garden.add('halves/b 1.csv', halves[0]!);
    garden.add('halves/a(2).csv', halves[1]!);
    garden.add('halves/notes.txt', 'no weather');
    garden.scenario('part.yaml', '{ file: winter.csv }');
    const one = await garden.run('run', 'part.yaml', '--json');
    const weather = (text: string) => JSON.parse(text).weather.hours;
    const wild = await garden.run('run', 'part.yaml', '--json', '--weather', 'halves/*.csv');
    const each = await garden.run(
      'run',
      'part.yaml',
      '--json',
      '--weather',
      'halves/b ?.csv',
      '--weather',
      'halves/a(2).csv',
    );
    for (const { code, stdout } of [wild, each]) {
      expect(code).toBe(0);
      expect(weather(stdout)).toBe(4368);
      expect(JSON.parse(stdout).trials[0].winters).toEqual(JSON.parse(one.stdout).trials[0].winters);
    }
    const none = await garden.run('run', 'part.yaml', '--weather', 'halves/*.dat');
    expect(none).toMatchObject({ code: 2, stdout: '' });
    expect(none.stderr).toMatch(/^FILE_MISSING {2}halves\/\*\.dat\n/);
    expect((await garden.run('weather', 'halves/*.csv', ...PLACE)).stdout).toContain('4368 hours');
  });
});
