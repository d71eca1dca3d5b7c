import { chmodSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { rowsOf, SAMPLES, type WeatherGarden, weatherGarden, yearRows, yearText } from './weatherGarden.ts';

const PLACE = ['--latitude', '54', '--longitude', '10', '--elevation', '20'];
const sample = (name: string) => join(SAMPLES, `invented-year${name}.csv`);

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
});
afterAll(() => garden.remove());

describe('longnight weather', () => {
  it('understands a file that states its place, exit 0, in at most 100 columns', async () => {
    const { code, stdout, stderr } = await garden.run('weather', sample('-semicolon'));
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('column "Global radiation [J/cm2]" in J/cm2, as its heading says');
    expect(stdout).toContain('the sun agrees, to 1 minute;');
    expect(stdout).toMatch(/One whole year, 2025-01-01 00:00 UTC to 2026-01-01 00:00 UTC/);
    // The first lines name the file, whose path may be long.
    const long = stdout.split('\n').filter((line) => line.length > 100 && !line.includes(SAMPLES));
    expect(long).toEqual([]);
  });

  it('refuses a clock that is off, exit 2, and says by how much and how to fix it; each fix works', async () => {
    const file = sample('-clock-off');
    const scenario = garden.scenario('place.yaml', `{ file: ${sample('')} }`);
    const { code, stdout, stderr } = await garden.run('weather', file, '--scenario', scenario);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('WEATHER_CLOCK');
    expect(stderr).toContain('by the sun that is a clock 60 minutes fast (to 1 minute)');
    expect(stderr).toContain(
      "Fix: --believe sun or --marks end or --zone +01:00 takes the sun's correction; " +
        "--believe file insists on the file's word (in a scenario, weather.believe).",
    );
    for (const mend of [
      ['--believe', 'sun'],
      ['--marks', 'end'],
      ['--zone', '+01:00'],
    ]) {
      const mended = await garden.run('weather', file, '--scenario', scenario, ...mend);
      expect(mended.code).toBe(0);
      expect(mended.stdout).toContain('8760 hours from 2025-01-01 00:00 UTC');
    }
    const insisted = await garden.run('weather', file, '--scenario', scenario, '--believe', 'file');
    expect(insisted.code).toBe(0);
    expect(insisted.stdout).toContain('8760 hours from 2025-01-01 01:00 UTC');
    expect(insisted.stdout).toContain('believe: the file, as the user states');
  });

  it('refuses stamps that two clocks explain, exit 2, with the options that settle it; one of them does', async () => {
    const { code, stderr } = await garden.run('weather', sample('-tab'), ...PLACE);
    expect(code).toBe(2);
    expect(stderr).toContain('WEATHER_AMBIGUOUS');
    expect(stderr).toContain('Fix: --zone UTC --marks end, or --zone +01:00 --marks start');
    const settled = await garden.run('weather', sample('-tab'), ...PLACE, '--zone', 'UTC');
    expect(settled.code).toBe(0);
    expect(settled.stdout).toContain('missing codes: ghi: -999 (8); air temperature: -999 (8)');
    expect(settled.stdout).toContain('8 hours of it filled');
  });

  it('reads civil time with its doubled and its absent hour', async () => {
    const { code, stdout } = await garden.run('weather', sample('-civil-time'), ...PLACE);
    expect(code).toBe(0);
    expect(stdout).toContain('8760 hours from 2025-01-01 00:00 UTC to 2026-01-01 00:00 UTC');
    expect(stdout).toContain('nothing was found');
  });

  it('asks for a place that nobody states', async () => {
    const { code, stderr } = await garden.run('weather', sample('-tab'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/SCENARIO_MISSING_KEY .*Fix: --latitude 54 --longitude 10.*--scenario/s);
  });

  it('writes the plain form and reads it back, without a place beside it, with its filled hours', async () => {
    const written = await garden.run(
      'weather',
      sample('-tab'),
      ...PLACE,
      '--zone',
      'UTC',
      '--write',
      'a.csv',
    );
    expect(written.code).toBe(0);
    expect(written.stdout).toContain('The plain form, 8760 hours, in\na.csv');
    const rows = rowsOf(garden.read('a.csv'));
    expect(Object.keys(rows[0]!)).toEqual([
      'start_utc',
      'ghi_W_m2',
      'air_degC',
      'weather_mark',
      'latitude_deg',
      'longitude_deg',
      'elevation_m',
    ]);
    expect(rows.filter((row) => row.weather_mark === 'filled')).toHaveLength(8);
    const again = await garden.run('weather', 'a.csv', '--write', 'b.csv');
    expect(again.code).toBe(0);
    expect(again.stdout).toContain('8 h were filled when the file was written');
    expect(garden.read('b.csv')).toBe(garden.read('a.csv'));
  });

  it('takes several files of one record', async () => {
    const rows = yearRows();
    garden.add('second.csv', yearText(rows.slice(4000)));
    garden.add('first.csv', yearText(rows.slice(0, 4000)));
    const { code, stdout } = await garden.run(
      'weather',
      'second.csv',
      'first.csv',
      ...PLACE,
      '--write',
      'c.csv',
    );
    expect(code).toBe(0);
    expect(stdout).toContain('8760 rows understood');
    expect(rowsOf(garden.read('c.csv'))).toHaveLength(8760);
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

  it('writes nothing and keeps an earlier file where the record holds no whole year', async () => {
    garden.add('half.csv', yearText(yearRows().slice(0, 4000)));
    garden.add('kept.csv', 'of an earlier time');
    const { code, stdout, stderr } = await garden.run('weather', 'half.csv', ...PLACE, '--write', 'kept.csv');
    expect(code).toBe(2);
    expect(stdout).toContain('No whole year');
    expect(stderr).toMatch(/^WEATHER_PARTIAL_YEAR {2}half\.csv\n/);
    expect(garden.read('kept.csv')).toBe('of an earlier time');
    expect(readdirSync(garden.folder).filter((name) => name.startsWith('.unfinished'))).toEqual([]);
  });

  it('does not write over a file that it reads', async () => {
    garden.add('own.csv', yearText(yearRows()));
    const { code, stderr } = await garden.run('weather', 'own.csv', ...PLACE, '--write', './own.csv');
    expect(code).toBe(2);
    expect(stderr).toContain('another file than the one that is read');
  });

  it.each([
    [['--marks', 'last'], '--marks last'],
    [['--believe', 'me'], '--believe me'],
    [['--latitude', '95'], '--latitude 95'],
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
    ['a JSON file', '{"hourly": [1, 2, 3]}', 'FILE_NOT_TEXT', 'JSON'],
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

/** Cells of nights.csv that a rounding of the light by 0.014 W/m2 may move, and how far. */
const NEAR: Record<string, number> = {
  lit_h: 0.01,
  short_h: 0.01,
  light_on_cell_Wh_m2: 0.3,
  capacitor_dawn_V: 0.001,
};

describe('longnight run on weather of another layout', () => {
  it("gives the nights of the scenario's own file with --weather, as near as the file's decimals allow", async () => {
    const stated =
      `{ file: ${sample('')}, stamp: { column: start_utc, zone: UTC, marks: start }, columns: ` +
      '{ ghi: { column: ghi_W_m2, unit: W/m2 }, air_temperature: { column: air_degC, unit: degC } } }';
    const scenario = garden.scenario('demo.yaml', stated);
    expect((await garden.run('run', scenario, '--out', 'own')).code).toBe(0);
    expect(
      (await garden.run('run', scenario, '--out', 'other', '--weather', sample('-semicolon'))).code,
    ).toBe(0);
    const own = rowsOf(garden.read('own/demo/nights.csv'));
    const other = rowsOf(garden.read('other/demo/nights.csv'));
    expect(own).toHaveLength(365);
    expect(other.map(({ night, outcome, cause }) => [night, outcome, cause])).toEqual(
      own.map(({ night, outcome, cause }) => [night, outcome, cause]),
    );
    for (const [name, tolerance] of Object.entries(NEAR)) {
      const most = own.reduce((far, row, i) => Math.max(far, Math.abs(+row[name]! - +other[i]![name]!)), 0);
      expect(most, name).toBeLessThan(tolerance);
    }
  });

  it('takes a weather file alone in the scenario, with the same bytes as a whole mapping of the same file', async () => {
    const alone = garden.scenario('demo.yaml', `{ file: ${sample('')} }`);
    expect((await garden.run('run', alone, '--out', 'alone')).code).toBe(0);
    expect(garden.read('alone/demo/nights.csv')).toBe(garden.read('own/demo/nights.csv'));
  });

  it('takes what the scenario says of zone, marks and belief, and records it', async () => {
    const off = (more: string) => garden.scenario('off.yaml', `{ file: ${sample('-clock-off')}${more} }`);
    const refused = await garden.run('run', off(''), '--out', 'off');
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('a clock 60 minutes fast');
    expect((await garden.run('run', off(', believe: sun'), '--out', 'off')).code).toBe(0);
    const { weather } = JSON.parse(garden.read('off/off/summary.json'));
    expect(weather.options.believe).toBe('the sun, as the user states');
    expect(garden.read('off/off/nights.csv')).toBe(garden.read('own/demo/nights.csv'));
    for (const more of [', marks: end', ', zone: "+01:00"']) {
      expect((await garden.run('run', off(more), '--out', 'off')).code).toBe(0);
      expect(garden.read('off/off/nights.csv')).toBe(garden.read('own/demo/nights.csv'));
    }
  });

  it('marks filled hours in every output, asks before it takes months of which much is filled, and records that', async () => {
    // Five days of December: a sixth of its daylight.
    const from = 334 * 24 + 24 * 9;
    const gappy = yearRows((row, i) => (i >= from && i < from + 120 ? row.replace(/,[^,]*,/, ',,') : row));
    garden.add('gappy.csv', yearText(gappy));
    const scenario = garden.scenario('gaps.yaml', '{ file: gappy.csv }');
    const refused = await garden.run('run', scenario, '--out', 'gaps');
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('WEATHER_GAP  gappy.csv');
    expect(refused.stderr).toContain('more than 10 percent of the daylight filled: 2025-12');
    expect(refused.stderr).toContain(
      '--accept-filled takes them (in a scenario, weather.accept_filled: true)',
    );

    const { code, stdout } = await garden.run('run', scenario, '--out', 'gaps', '--accept-filled');
    expect(code).toBe(0);
    expect(stdout).toMatch(/8760 hours from [^,]*, 120 of them filled/);
    const { weather, trials } = JSON.parse(garden.read('gaps/gaps/summary.json'));
    expect(weather.filled_hours).toBe(120);
    expect(weather.options['accept filled']).toBe('months of which much is filled, as the user states');
    const hours = rowsOf(garden.read('gaps/gaps/hours.csv'));
    const filled = hours.filter((row) => row.weather_mark === 'filled').map((row) => row.start_utc);
    expect(filled).toHaveLength(120);
    expect(filled[0]).toBe('2025-12-10T00:00:00Z');
    const nights = rowsOf(garden.read('gaps/gaps/nights.csv'));
    const filled_h = nights.reduce((sum, row) => sum + Number(row.filled_weather_h), 0);
    expect(filled_h).toBe(120);
    expect(trials[0].winters[0].filled_weather_h).toBe(120);

    const stated = garden.scenario('gaps.yaml', '{ file: gappy.csv, accept_filled: true }');
    expect((await garden.run('run', stated, '--out', 'gaps2')).code).toBe(0);
    expect(garden.read('gaps2/gaps/nights.csv')).toBe(garden.read('gaps/gaps/nights.csv'));
  });

  it('keeps marks and filled hours of a file of the plain form', async () => {
    const write = ['weather', 'gappy.csv', ...PLACE, '--accept-filled', '--write', 'plain.csv'];
    expect((await garden.run(...write)).code).toBe(0);
    const scenario = garden.scenario('gaps.yaml', '{ file: plain.csv }');
    expect((await garden.run('run', scenario, '--out', 'plain')).code).toBe(0);
    expect(garden.read('plain/gaps/nights.csv')).toBe(garden.read('gaps/gaps/nights.csv'));
    expect(garden.read('plain/gaps/hours.csv')).toBe(garden.read('gaps/gaps/hours.csv'));
    expect(JSON.parse(garden.read('plain/gaps/summary.json')).weather.filled_hours).toBe(120);
  });

  it('compare takes such a file too, and says how many of its hours were filled', async () => {
    const scenario = garden.scenario('gaps.yaml', '{ file: nowhere.csv }');
    garden.add('nowhere.csv', 'not read');
    const { code, stdout } = await garden.run(
      ...['compare', scenario, '--weather', 'gappy.csv', '--accept-filled', '--json', '--out', 'compared'],
    );
    expect(code).toBe(0);
    expect(JSON.parse(stdout).scenarios[0].weather.filled_hours).toBe(120);
    const said = await garden.run('compare', scenario, '--weather', 'plain.csv', '--out', 'compared');
    expect(said.stdout).toMatch(/8760 hours from [^,]*, 120 of them filled or standing in/);
  });
});
