import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { rowsOf, SAMPLES, type WeatherGarden, weatherGarden, yearRows, yearText } from './weatherGarden.ts';

const PLACE = ['--place', '54,10,20'];
const sample = (name: string) => join(SAMPLES, `invented-year${name}.csv`);

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
});
afterAll(() => garden.remove());

describe('longnight weather', () => {
  it('refuses a clock that is off, exit 2, and says by how much and how to fix it; each fix works', async () => {
    const file = sample('-clock-off');
    const scenario = garden.scenario('place.yaml', `{ file: ${sample('')} }`);
    const { code, stdout, stderr } = await garden.run('weather', file, '--scenario', scenario);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('WEATHER_CLOCK');
    expect(stderr).toContain('by the sun that is a clock 60 minutes fast (to 4 minutes)');
    expect(stderr).toContain(
      "Fix: --believe sun or --marks end takes the sun's correction; " +
        "--believe file insists on the file's word (in a scenario, weather.zone, weather.marks, weather.believe).",
    );
    for (const mend of [
      ['--believe', 'sun'],
      ['--marks', 'end'],
    ]) {
      const mended = await garden.run('weather', file, '--scenario', scenario, ...mend);
      expect(mended.code).toBe(0);
      expect(mended.stdout).toContain('8760 hours, 2025-01-01 00:00 UTC to');
    }
    const insisted = await garden.run(
      ...['weather', file, '--scenario', scenario, '--believe', 'file', '--details'],
    );
    expect(insisted.code).toBe(0);
    expect(insisted.stdout).toContain('8760 hours from 2025-01-01 01:00 UTC');
    expect(insisted.stdout).toContain('believe: the file, as the user states');
  });

  it('takes stamps that two clocks explain alike, says so, and gives the same hours when one is typed', async () => {
    const { code, stdout } = await garden.run('weather', sample('-tab'), ...PLACE, '--details');
    expect(code).toBe(0);
    expect(stdout).toContain('which give the same hours');
    const settled = await garden.run('weather', sample('-tab'), ...PLACE, '--zone', 'UTC', '--details');
    expect(settled.code).toBe(0);
    for (const text of [stdout, settled.stdout]) {
      expect(text).toContain('missing codes: ghi: -999 (8); air temperature: -999 (8)');
      expect(text).toContain('8 hours of it filled');
    }
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
    const again = await garden.run('weather', 'a.csv', '--details', '--write', 'b.csv');
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
    expect(stdout).toContain('first.csv, second.csv: 8760 rows');
    expect(rowsOf(garden.read('c.csv'))).toHaveLength(8760);
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
