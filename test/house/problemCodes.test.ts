import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { InputProblem, PROBLEM_CODES, type ProblemCode } from '../../sim/common/InputProblem.ts';
import { fileSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import { runMain } from '../cli/runMain.ts';
import { filesBelow, withoutComments } from './simFiles.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-codes-'));
afterAll(() => rmSync(folder, { recursive: true }));

const SCENARIO = readFileSync(`${root}scenarios/invented-garden.yaml`, 'utf8').replaceAll(
  '../data-samples/',
  '',
);
const WEATHER = readFileSync(`${root}data-samples/invented-year.csv`, 'utf8');
const HOUSE = readFileSync(`${root}data-samples/house.csv`, 'utf8');

/** What a run is given: words of the command line, or files that differ from the demo's. */
interface Input {
  words?: string[];
  scenario?: string | Uint8Array;
  weather?: string | Uint8Array;
  house?: string;
  log?: string;
}

/** The demo's scenario, a piece of it replaced. */
function scenario(from: string, to: string): Input {
  expect(SCENARIO).toContain(from);
  return { scenario: SCENARIO.replace(from, to) };
}

/** The demo's weather with one row changed; undefined removes it. Row 0 is the heading. */
function row(number: number, change: (cells: string[]) => string[] | undefined): Input {
  const lines = WEATHER.trimEnd().split('\n');
  const changed = change(lines[number]!.split(','));
  lines.splice(number, 1, ...(changed === undefined ? [] : [changed.join(',')]));
  return { weather: `${lines.join('\n')}\n` };
}

/** A log in which no light was ever seen. */
function darkDays(days: number): string {
  const rows = Array.from({ length: 24 * days }, (_, hour) => {
    const stamp = new Date(Date.UTC(2025, 5, 1, hour)).toISOString().slice(0, 16);
    return `${stamp}Z,0`;
  });
  return `start_utc,light\n${rows.join('\n')}\n`;
}

const midday = 13;
const midnight = 1;

/** For every code that the simulator can raise: a bad input that raises it. */
const RAISED: Partial<Record<ProblemCode, () => Input>> = {
  FILE_MISSING: () => ({ words: ['run', 'no-such.yaml'] }),
  FILE_UNREADABLE: () => ({ words: ['run', '.'] }),
  FILE_EMPTY: () => ({ weather: '' }),
  FILE_TRUNCATED: () => ({ weather: WEATHER.slice(0, WEATHER.lastIndexOf(',')) }),
  FILE_NOT_TEXT: () => ({ weather: Uint8Array.from({ length: 4096 }, (_, i) => (i * 37) % 256) }),
  FILE_TOO_LARGE: () => scenario('site:', `#${' '.repeat(1e6)}\nsite:`),
  YAML_SYNTAX: () => scenario('site:', 'site: ['),
  YAML_DUPLICATE_KEY: () => scenario('seed: 1', 'seed: 1\nseed: 2'),
  SCENARIO_UNKNOWN_KEY: () => scenario('albedo:', 'albdeo:'),
  SCENARIO_MISSING_KEY: () => scenario('  latitude_deg: 54.0\n', ''),
  SCENARIO_WRONG_TYPE: () => scenario('latitude_deg: 54.0', 'latitude_deg: north'),
  SCENARIO_OUT_OF_RANGE: () => scenario('latitude_deg: 54.0', 'latitude_deg: 95'),
  SCENARIO_WRONG_UNIT: () => scenario('elevation_m: 20', 'elevation_ft: 66'),
  SCENARIO_UNKNOWN_PART: () => scenario('part: small-jar', 'part: smal-jar'),
  SCENARIO_CONFLICT: () =>
    scenario('driver: { part: inductor-driver }', 'driver: { part: inductor-driver, restart_V: 0.5 }'),
  WEATHER_COLUMN_MISSING: () => scenario('column: ghi_W_m2', 'column: ghi'),
  WEATHER_STAMP_UNREADABLE: () => row(100, ([, ...rest]) => ['soon', ...rest]),
  WEATHER_GAP: () => row(100, () => undefined),
  WEATHER_DUPLICATE: () => ({ weather: WEATHER.replace(/^(2025-03-01T05:.*\n)/m, '$1$1') }),
  WEATHER_DISORDER: () => ({ weather: WEATHER.replace(/^(2025-03-01T05:.*\n)(.*\n)/m, '$2$1') }),
  WEATHER_VALUE_NOT_NUMBER: () => row(midday, ([stamp, , air]) => [stamp!, 'bright', air!]),
  WEATHER_VALUE_OUT_OF_RANGE: () => row(midday, ([stamp, , air]) => [stamp!, '-50', air!]),
  WEATHER_SUN_DOWN: () => row(midnight, ([stamp, , air]) => [stamp!, '300', air!]),
  WEATHER_AMBIGUOUS: () => ({ weather: WEATHER.replace('air_degC', 'ghi_W_m2') }),
  WEATHER_PARTIAL_YEAR: () => ({
    words: ['weather', 'invented-year.csv', '--place', '54,10', '--from', '2030-01-01'],
  }),
  SPOT_PROFILE: () => ({ house: HOUSE.replace(/^90(?:\.0)?,.*$/m, '90,123') }),
  SPOT_GEOMETRY: () =>
    scenario(
      'horizon: { file: house.csv }',
      'obstacles: { oak: { kind: tree, bearing_deg: 180, distance_m: 5, crown_base_m: 4, crown_top_m: 2, crown_width_m: 4 } }',
    ),
  FIT_UNDETERMINED: () => ({
    ...scenario(
      'horizon: { file: house.csv }',
      'measured_light: { file: log.csv, stamp: { column: start_utc, zone: UTC, marks: start }, column: light, unit: W/m2 }',
    ),
    log: darkDays(10),
  }),
  LAMP_CUTOFF_ABOVE_REACHABLE: () =>
    scenario(
      'driver: { part: inductor-driver }',
      'driver: { part: inductor-driver, cutoff_V: 2.5, restart_V: 2.6 }',
    ),
  USAGE: () => ({ words: ['run'] }),
};

/** Codes that no command raises so far, but a function of the library does: a bad input handed to it. */
const RAISED_BY_LIBRARY: Partial<Record<ProblemCode, () => Promise<unknown>>> = {
  WEATHER_CLOCK: () =>
    importWeather([fileSource(`${root}data-samples/invented-year-clock-off.csv`)], {
      place: { latitude_deg: 54, longitude_deg: 10 },
    }),
};

/** Codes of the table that nothing raises so far. */
const NOT_YET: ProblemCode[] = [];

const CODES = Object.keys(PROBLEM_CODES) as ProblemCode[];

it.each(CODES.filter((code) => code in RAISED))(
  '%s is raised by a bad input and ends with 2',
  async (code) => {
    const input = RAISED[code]!();
    const here = join(folder, code);
    mkdirSync(here);
    writeFileSync(join(here, 'garden.yaml'), input.scenario ?? SCENARIO);
    if (input.weather === undefined)
      copyFileSync(`${root}data-samples/invented-year.csv`, join(here, 'invented-year.csv'));
    else writeFileSync(join(here, 'invented-year.csv'), input.weather);
    writeFileSync(join(here, 'house.csv'), input.house ?? HOUSE);
    if (input.log !== undefined) writeFileSync(join(here, 'log.csv'), input.log);
    const answer = await runMain(input.words ?? ['run', 'garden.yaml'], { cwd: here });
    expect(answer.stderr).toMatch(new RegExp(`(?<!\\w)${code}(?!\\w)`));
    expect(answer.stderr).toMatch(/expected/);
    expect(answer.stderr).not.toMatch(/^\s+at .*:\d+:\d+/m);
    expect(answer).toMatchObject({ code: 2, stdout: '' });
  },
);

it.each(CODES.filter((code) => code in RAISED_BY_LIBRARY))('%s is raised by the library', async (code) => {
  const error: unknown = await RAISED_BY_LIBRARY[code]!().then(
    () => undefined,
    (thrown) => thrown,
  );
  expect(error).toBeInstanceOf(InputProblem);
  expect((error as InputProblem).problems.map((problem) => problem.code)).toContain(code);
});

it('every code is either raised by a case or stands in the list of those not raised so far', () => {
  expect([...Object.keys(RAISED), ...Object.keys(RAISED_BY_LIBRARY), ...NOT_YET].sort()).toEqual(
    [...CODES].sort(),
  );
});

it('no code of that list is raised anywhere in sim/, and every other one is', () => {
  const code = filesBelow('sim', '.ts')
    .filter(({ path }) => path !== 'sim/common/InputProblem.ts')
    .map(({ text }) => withoutComments(text))
    .join('\n');
  const named = CODES.filter((one) => new RegExp(`['"\`]${one}['"\`]`).test(code));
  expect(named).toEqual(CODES.filter((one) => !NOT_YET.includes(one)));
});
