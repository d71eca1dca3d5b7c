import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { placedIn } from '../../sim/trial/runAll.ts';

const scenario = loadScenario('scenarios/invented-garden.yaml');
const refuse = (problem: { field?: string; file?: string }) => () => {
  throw new InputProblem({
    code: 'SCENARIO_CONFLICT',
    got: 'this',
    expected: 'that',
    fix: 'mend it.',
    ...problem,
  });
};

it('a refusal during a run names the file and the place of its section', () => {
  const lines = readFileSync('scenarios/invented-garden.yaml', 'utf8').split('\n');
  const line = 1 + lines.findIndex((text) => text.startsWith('    cell: { part: small-cell, parallel: 2'));
  expect(() => placedIn(scenario, refuse({ field: 'lamps.double' }))).toThrow(
    new RegExp(`scenarios/invented-garden.yaml:${line}:13`),
  );
});

it('what has a place keeps it, and other errors pass as they are', () => {
  expect(() => placedIn(scenario, refuse({ file: 'house.csv' }))).toThrow(/house\.csv/);
  expect(() =>
    placedIn(scenario, () => {
      throw new TypeError('other');
    }),
  ).toThrow(TypeError);
  expect(placedIn(scenario, () => 7)).toBe(7);
});
