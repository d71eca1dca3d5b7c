import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import { runMain } from './runMain.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'init-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const init = (words: string[], answers?: string[]) => runMain(['init', ...words], { cwd: folder, answers });

describe('init', () => {
  test('without a word more writes a garden of invented weather, says so, and it runs', async () => {
    const { code, stdout, stderr } = await init(['garden']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.split('\n')).toEqual([
      join('garden', 'garden.yaml'),
      join('garden', 'parts/my-parts.yaml'),
      join('garden', 'weather/invented-year.csv'),
      join('garden', 'scenario.schema.json'),
      '',
      'Read it through, then',
      `longnight check ${join('garden', 'garden.yaml')}`,
      `longnight run ${join('garden', 'garden.yaml')}`,
      '',
    ]);
    // A shell that is told garden/*.yaml finds the scenario alone.
    expect(readdirSync(join(folder, 'garden')).filter((name) => name.endsWith('.yaml'))).toEqual([
      'garden.yaml',
    ]);
    const text = readFileSync(join(folder, 'garden', 'garden.yaml'), 'utf8');
    expect(text).toMatch(/^# yaml-language-server: \$schema=\.\/scenario\.schema\.json\n/);
    expect(text).toContain('# INVENTED weather of no real place');
    const { trials } = await runAll(loadScenario(join(folder, 'garden', 'garden.yaml')), {
      withChanges: false,
    });
    expect(trials.map(({ spot, lamp, nights }) => [spot, lamp, nights.length])).toEqual([
      ['here', 'first', 365],
    ]);
  });

  test('never replaces what is there', async () => {
    const { code, stderr } = await init(['garden', '--promise', '3']);
    expect(code).toBe(2);
    expect(stderr).toContain('never replaced');
    expect(readFileSync(join(folder, 'garden', 'garden.yaml'), 'utf8')).toContain('hours: 6');
  });

  test('nor parts that are there without a scenario', async () => {
    mkdirSync(join(folder, 'shared', 'parts'), { recursive: true });
    writeFileSync(join(folder, 'shared', 'parts', 'my-parts.yaml'), 'mine');
    const { code, stderr } = await init(['shared']);
    expect(code).toBe(2);
    expect(stderr).toContain(join('shared', 'parts/my-parts.yaml'));
    expect(readFileSync(join(folder, 'shared', 'parts', 'my-parts.yaml'), 'utf8')).toBe('mine');
    expect(existsSync(join(folder, 'shared', 'shared.yaml'))).toBe(false);
  });

  test('takes place, weather, parts and surroundings from options', async () => {
    const sample = resolve('data-samples/invented-year-semicolon.csv');
    const { code, stderr } = await init([
      ...['yard', '--weather', sample, '--place', '54,10,20', '--wall-clock', 'Europe/Berlin'],
      ...[
        '--promise',
        '4',
        '--least-light',
        '0.5',
        '--have',
        'capacitor=100,2.7,2',
        '--have',
        'cell=400,2.4,4',
      ],
      ...['--around', 'house=SSE,6,5,10', '--around', 'tree=200,8,7,4', '--around', 'fence=90,3,1.8,12'],
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const scenario = loadScenario(join(folder, 'yard', 'yard.yaml'));
    expect(scenario.site).toMatchObject({ latitude_deg: 54, elevation_m: 20, timeZone: 'Europe/Berlin' });
    expect(scenario.promise).toMatchObject({ hours: 4, least_lumen: 0.5 });
    expect(scenario.spots[0]!.section.obstacles).toMatchObject({
      house: { kind: 'house', bearing_deg: 'SSE', distance_m: 6, height_m: 5, width_m: 10 },
      tree: { kind: 'tree', bearing_deg: 200, crown_base_m: 2, crown_top_m: 7, crown_width_m: 4 },
      fence: { kind: 'fence', openness: 0.3 },
    });
    expect(scenario.lamps[0]!.section).toMatchObject({
      cell: { short_circuit_mA: 400, open_circuit_V: 2.4, best_current_mA: 368, cells_in_series: 4 },
      capacitor: { capacitance_F: 100, rated_V: 2.7, parallel: 2, in_drawer: 2 },
    });
    const weather = readFileSync(join(folder, 'yard', 'weather', 'invented-year-semicolon.csv'), 'utf8');
    expect(weather).toMatch(/^start_utc,ghi_W_m2,.*weather_mark,latitude_deg,longitude_deg,elevation_m\n/);
    const { trials } = await runAll(scenario, { withChanges: false });
    expect(trials[0]!.nights).toHaveLength(365);
  });

  test('asks a person who watches for what was not typed, and an empty answer is the usual', async () => {
    const { code, stderr } = await init(['asked'], ['', '5', 'hedge=w,2,1.5,6 wall=N,1,2,4', '']);
    expect(code).toBe(0);
    // Not where the weather was measured, where none is named.
    expect(stderr).toMatch(
      /^Hourly weather .*: Hours of light .*: What stands around, .*: What lies in the drawer, .*: $/s,
    );
    const { promise, spots } = loadScenario(join(folder, 'asked', 'asked.yaml'));
    expect(promise.hours).toBe(5);
    expect(Object.keys(spots[0]!.section.obstacles ?? {})).toEqual(['hedge', 'wall']);
  });

  test('asks which station is meant where the file holds two, and says why', async () => {
    const file = resolve('data-samples/invented-two-stations.csv');
    const words = ['mill', '--weather', file, '--place', '54,10,20'];
    const { code, stderr } = await init(words, ['', '', '', 'Upper Mill']);
    expect({ code, stderr: code === 0 ? '' : stderr }).toEqual({ code: 0, stderr: '' });
    expect(stderr).toContain(
      'the station that is meant, where a file holds several, as Northfield, or Upper Mill: ',
    );
    expect(existsSync(join(folder, 'mill', 'weather', 'invented-two-stations.csv'))).toBe(true);
    const unanswered = await init(['field', ...words.slice(1)], ['', '', '', '']);
    expect(unanswered.code).toBe(2);
    expect(unanswered.stderr).toContain('--station Northfield');
    expect(existsSync(join(folder, 'field'))).toBe(false);
  });

  test('writes all or nothing into a folder that is there', async () => {
    mkdirSync(join(folder, 'half'));
    // No folder can be made of that name.
    writeFileSync(join(folder, 'half', 'weather'), 'mine');
    expect((await init(['half'])).code).toBe(1);
    expect(readdirSync(join(folder, 'half'))).toEqual(['weather']);
    rmSync(join(folder, 'half', 'weather'));
    expect((await init(['half'])).code).toBe(0);
    expect(readdirSync(join(folder, 'half')).sort()).toEqual([
      'half.yaml',
      'parts',
      'scenario.schema.json',
      'weather',
    ]);
  });

  test.each([
    [['9lives'], 'a folder whose name begins with a letter'],
    [['away', '--place', '54,10'], 'add --weather FILE'],
    [['odd', '--around', 'hous=S,6,5,10'], 'did you mean --around house=S,6,5,10?'],
    [['odd', '--around', 'house=S,6,5'], 'BEARING,DISTANCE,HEIGHT,WIDTH'],
    [['odd', '--around', 'house=south,6,5,10'], 'the bearing south'],
    [['odd', '--have', 'capacitor=100,2.7'], 'capacitor=F,V,COUNT'],
    [['odd', '--have', 'cell=400,2.4,3.5'], 'a whole number'],
    [['odd', '--wall-clock', 'Europe/Berln'], 'did you mean --wall-clock Europe/Berlin?'],
    [['odd', '--promise', 'long'], '--promise long'],
    [['odd', '--weather', 'no-such.csv', '--place', '54,10'], 'no-such.csv'],
  ])('refuses %j, and writes nothing', async (words, says) => {
    const { code, stderr } = await init(words);
    expect({ code, says: stderr.includes(says) ? says : stderr }).toEqual({ code: 2, says });
    expect(existsSync(join(folder, words[0]!))).toBe(false);
  });

  test('writes nothing where the weather is refused', async () => {
    writeFileSync(join(folder, 'three.csv'), 'time;light\n1;2\n');
    const { code } = await init(['dark', '--weather', 'three.csv', '--place', '54,10']);
    expect(code).toBe(2);
    expect(existsSync(join(folder, 'dark'))).toBe(false);
  });
});
