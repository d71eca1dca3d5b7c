import { expect, it } from 'vitest';
import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';
import { fitScenario } from '../../sim/fitting/fitScenario.ts';
import { scenarioWithReadings } from '../../sim/fitting/scenarioWithReadings.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';

const scenario = loadScenario('scenarios/bench-readings.yaml');
const lamp = scenario.lamps[0]!;
const PARTS = ['cell', 'diode', 'capacitor', 'driver', 'led', 'jar'] as const;
const named = (text: string) => ({ name: 'bench.csv', bytes: new TextEncoder().encode(text) });

/** Readings of a scenario as rows. */
function rowsOf(value: unknown, key: string): string[] {
  if (typeof value === 'number') return [`${key},${value}`];
  if (Array.isArray(value)) return value.flatMap((below, i) => rowsOf(below, `${key}.${i + 1}`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([step, below]) =>
    rowsOf(below, key === '' ? step : `${key}.${step}`),
  );
}

function problemsOf(...rows: string[]): readonly Problem[] {
  try {
    scenarioWithReadings(scenario, named(`part,key,value\n${rows.join('\n')}\n`));
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  return [];
}

it('readings from a file give the same parameters as the same readings in the scenario', () => {
  const rows = PARTS.flatMap((part) =>
    rowsOf(lamp.section[part].readings, '').map((row) => `${part},${row}`),
  );
  expect(rows.length).toBeGreaterThan(50);
  const plain = { ...scenario, lamps: [{ ...lamp, section: lamp.settled }] };
  const found = fitScenario(scenarioWithReadings(scenario, named(`part,key,value\n${rows.join('\n')}\n`)));
  expect(found).toEqual(fitScenario(scenario));
  const alone = scenarioWithReadings(
    plain,
    named(
      'part;key;value\njar;points.1.light_W_m2;800\n' +
        'jar;points.1.outside_degC;20\njar;points.1.inside_degC;32\n',
    ),
  );
  const { parts } = fitScenario(alone).lamps[0]!;
  expect(parts.map(({ part }) => part)).toEqual(['jar']);
  // (32 - 20) K in 800 W/m2.
  expect(parts[0]!.fit.estimates[0]!.value).toBeCloseTo(15, 9);
});

it('rows that say nothing are named with their lines, all together', () => {
  const found = problemsOf(
    'bulb,x,1',
    'cell,lights..x,1',
    'jar,points.1.light_W_m2,8a',
    'led,a,1',
    'led,a,2',
  );
  expect(found.map(({ code, line }) => [code, line])).toEqual([
    ['SCENARIO_UNKNOWN_KEY', 2],
    ['SCENARIO_UNKNOWN_KEY', 3],
    ['WEATHER_VALUE_NOT_NUMBER', 4],
    ['SCENARIO_CONFLICT', 6],
  ]);
});

it('a decimal comma, another heading and an empty file are refused', () => {
  expect(problemsOf('jar,points.1.light_W_m2,800,5')[0]).toMatchObject({
    code: 'WEATHER_VALUE_NOT_NUMBER',
    fix: expect.stringContaining('decimal comma'),
  });
  expect(problemsOf()[0]!.code).toBe('FILE_EMPTY');
  expect(() => scenarioWithReadings(scenario, named('what,value\ncell,1\n'))).toThrow(
    'WEATHER_COLUMN_MISSING',
  );
});

it('readings that cannot be are told with the line of the file', () => {
  const rows = [
    'diode,forward.1.current_mA,2',
    'diode,forward.1.drop_V,0.23',
    'diode,forward.2.current_mA,20',
    'diode,forward.2.drop_V,0.17',
  ];
  expect(problemsOf(...rows)).toMatchObject([
    { code: 'SCENARIO_CONFLICT', file: 'bench.csv', line: 5, field: 'diode.forward.2.drop_V' },
  ]);
  const gap = problemsOf('diode,forward.2.current_mA,2', 'diode,forward.2.drop_V,0.17');
  expect(gap).toMatchObject([
    { line: 2, field: 'diode.forward.1', fix: expect.stringContaining('without a gap') },
  ]);
  expect(problemsOf('diode,forward.1.current_mA,2', 'diode,forward.1.drop_mV,230')).toMatchObject([
    { code: 'SCENARIO_WRONG_UNIT', file: 'bench.csv', line: 3, field: 'diode.forward.1.drop_mV' },
  ]);
});

it('takes values with units, and refuses those of another quantity with the line of the file', () => {
  const fitOf = (rows: string) =>
    fitScenario(scenarioWithReadings(scenario, named(`part;key;value\n${rows}\n`))).lamps[0]!.parts.find(
      ({ part }) => part === 'diode',
    );
  expect(fitOf('diode;forward.1.current_mA;2,0\ndiode;forward.1.drop_V;168 mV')).toEqual(
    fitOf('diode;forward.1.current_mA;2\ndiode;forward.1.drop_V;0.168'),
  );
  expect(problemsOf('diode,forward.1.current_mA,2', 'diode,forward.1.drop_V,168 mA')).toMatchObject([
    {
      code: 'SCENARIO_WRONG_UNIT',
      file: 'bench.csv',
      line: 3,
      field: 'diode.forward.1.drop_V',
      got: '"168 mA", a current',
    },
  ]);
});

it('asks which lamp where there are several', () => {
  const two = { ...scenario, lamps: [lamp, { ...lamp, name: 'other' }] };
  const file = named('part,key,value\ndiode,forward.1.current_mA,2\ndiode,forward.1.drop_V,0.17\n');
  expect(() => scenarioWithReadings(two, file)).toThrow('measured, other');
  expect(scenarioWithReadings(two, file, 'other').lamps.map(({ name }) => name)).toEqual(['other']);
});

it.each([
  ['keys that no part has', (k: number) => `cell,odd${k},5`, 'SCENARIO_UNKNOWN_KEY'],
  ['parts that no lamp has', (k: number) => `odd${k},lights,5`, 'SCENARIO_UNKNOWN_KEY'],
  ['values that are no numbers', (k: number) => `cell,odd${k},x`, 'WEATHER_VALUE_NOT_NUMBER'],
])('of thousands of %s it lists ten and counts the others', (_, row, code) => {
  const all = problemsOf(...Array.from({ length: 5000 }, (_, k) => row(k)));
  const problems = all.filter((problem) => problem.code === code);
  expect(problems).toHaveLength(10);
  expect(problems.at(-1)).toMatchObject({ line: 11, more: 4990 });
});
