import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { parseScenario } from '../../sim/scenario/parseScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { designSpace } from '../../sim/sizing/DesignSpace.ts';
import { designAt } from '../../sim/sizing/designAt.ts';
import { designScenario } from '../../sim/sizing/designScenario.ts';
import { changed, folder, SOUND, written } from './writeScenario.ts';

const AT = { folder, path: 'mine/garden.yaml' };
const object = (text: string) => parse(text) as Record<string, object>;

/** The problems that a scenario is refused with. */
function refusedAs(source: string | object, at = AT): readonly Problem[] {
  try {
    parseScenario(source, at);
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  throw new Error('it was taken');
}

/** Functions are the same where they were made the same. */
const plain = ({ written: _, ...rest }: Scenario) => JSON.parse(JSON.stringify(rest)) as unknown;

describe('parseScenario makes of a text', () => {
  it('what loadScenario makes of a file', () => {
    const path = written(SOUND);
    const parsed = parseScenario(SOUND, { folder, path });
    expect(plain(parsed)).toEqual(plain(loadScenario(path)));
    expect(parsed.sha256).toBe(loadScenario(path).sha256);
  });

  it('the same refusals, by the name it was given', () => {
    const [problem] = refusedAs(changed(['latitude_deg: 54', 'latitude_deg: 95']));
    expect(problem).toMatchObject({
      code: 'SCENARIO_OUT_OF_RANGE',
      file: 'mine/garden.yaml',
      line: 3,
      column: 17,
      field: 'site.latitude_deg',
    });
    expect(refusedAs('a: [')[0]).toMatchObject({ code: 'YAML_SYNTAX', line: 1 });
    expect(refusedAs(' ')[0]).toMatchObject({ code: 'FILE_EMPTY' });
    expect(refusedAs(`# ${'x'.repeat(1e6)}`)[0]).toMatchObject({ code: 'FILE_TOO_LARGE' });
  });

  it('a scenario called after the file it would be, and looks beside that', () => {
    expect(parseScenario(SOUND, AT).name).toBe('garden');
    expect(parseScenario(SOUND, { folder }).name).toBe('scenario');
    expect(parseScenario(SOUND, { path: `${folder}/other.yaml` }).folder).toBe(folder);
    expect(refusedAs(SOUND, { folder: `${folder}/elsewhere`, path: 'x.yaml' })[0]).toMatchObject({
      code: 'FILE_MISSING',
    });
  });
});

describe('parseScenario makes of a plain object', () => {
  it('the scenario that its text would be, its values from no line', () => {
    const { resolved, origins, assumptions } = parseScenario(object(SOUND), AT);
    const ofText = parseScenario(SOUND, AT);
    expect(resolved).toEqual(ofText.resolved);
    expect(assumptions).toEqual(ofText.assumptions);
    expect(origins.map(({ from }) => from)).toEqual(
      ofText.origins.map(({ from }) => from.replace(/^scenario line \d+/, 'scenario')),
    );
  });

  it('the same refusals by key alone', () => {
    const text = changed(['latitude_deg: 54', 'latitude_deg: 95'], ['cell_tilt_deg', 'cell_titl_deg']);
    const withPlace = refusedAs(text);
    const byKey = withPlace.map(({ line, column, ...problem }) => problem);
    expect(withPlace).toHaveLength(2);
    expect(refusedAs(object(text))).toEqual(byKey);
  });

  it('a refusal of a choice without a place', () => {
    const choices = { capacitor: { capacitance_F: [100, 100] } };
    const [problem] = refusedAs({ ...object(SOUND), choices });
    expect(problem).toMatchObject({ code: 'SCENARIO_CONFLICT', field: 'choices.capacitor.capacitance_F.1' });
    expect(problem).not.toHaveProperty('line');
  });

  it('a copy, which takes no later change and no key of undefined', () => {
    const source = { ...object(SOUND), currency: undefined, seed: 7 };
    const scenario = parseScenario(source, AT);
    source.seed = 8;
    expect(scenario.written).toMatchObject({ seed: 7 });
    expect(scenario.currency).toBeUndefined();
  });

  it('a refusal of what is no number, no map and no end', () => {
    const seeded = (seed: unknown) => ({ ...object(SOUND), seed });
    expect(refusedAs(seeded(Number.NaN))[0]).toMatchObject({ field: 'seed', got: '"NaN"' });
    expect(refusedAs(seeded(1n))[0]?.got).toContain('an integer that is no number');
    const round: Record<string, unknown> = {};
    round.round = round;
    expect(refusedAs(round)[0]?.got).toContain('in a circle');
    expect(refusedAs([SOUND])[0]).toMatchObject({ code: 'SCENARIO_WRONG_TYPE', got: 'a list' });
    expect(refusedAs({}).map(({ field }) => field)).toContain('site');
  });

  it('a scenario whose designs are written as YAML', () => {
    const choices = { capacitor: { capacitance_F: [100, 200] } };
    const space = designSpace(parseScenario({ ...object(SOUND), choices }, AT));
    const text = designScenario(space, designAt(space, 1), { folder, name: 'chosen' });
    const { name, lamps } = parseScenario(text, AT);
    expect(name).toBe('chosen');
    expect(lamps[0]?.section.capacitor).toMatchObject({ part: 'medium-capacitor', capacitance_F: 200 });
    expect(text).toContain('Made by size from garden.yaml');
  });
});
