import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { settleLamp } from '../../sim/lamp/settleLamp.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { type DesignSpace, designSpace, presentDesign } from '../../sim/sizing/DesignSpace.ts';
import { DesignTrials, type KnownLamps } from '../../sim/sizing/DesignTrials.ts';
import { designAt } from '../../sim/sizing/designAt.ts';
import { spacesOf } from '../../sim/sizing/sizeScenario.ts';
import { scenarioLights } from '../../sim/trial/scenarioLights.ts';
import { changed, load, placeOf, SOUND } from '../scenario/writeScenario.ts';

const CHOICES = `choices:
  stand: { cell_tilt_deg: [10, 45] }
  cell: { part: [small-cell, good-cell], parallel: [1, 2] }
  capacitor: { capacitance_F: 100..1000 by E6, limiter: [none, { at_V: 2.6 }] }
  driver: { inductance_uH: [330, 680] }
`;

function spaceOf(choices: string, text = SOUND): DesignSpace {
  return designSpace(load(`${text}${choices}`));
}

function refusedBy(choices: string, text = SOUND) {
  try {
    spaceOf(choices, text);
  } catch (error) {
    if (error instanceof InputProblem) return error;
    throw error;
  }
  throw new Error('the choices were accepted');
}

it('counts all combinations and gives each once, the last part fastest', () => {
  const space = spaceOf(CHOICES);
  expect(space.count).toBe(2 * 4 * 14 * 2);
  const seen = new Set<string>();
  for (let index = 0; index < space.count; index++) {
    const design = designAt(space, index);
    expect(design.index).toBe(index);
    seen.add(JSON.stringify([design.spot.section, design.section]));
  }
  expect(seen.size).toBe(space.count);
  expect(designAt(space, 0).chosen.map(({ key, value }) => [key, value])).toEqual([
    ['stand.cell_tilt_deg', 10],
    ['cell.part', 'small-cell'],
    ['cell.parallel', 1],
    ['capacitor.capacitance_F', 100],
    ['capacitor.limiter', null],
    ['driver.inductance_uH', 330],
  ]);
  expect(designAt(space, 1).section.driver).toMatchObject({ inductance_uH: 680 });
  expect(() => designAt(space, space.count)).toThrow('no design');
});

it('makes each design the lamp that the scenario would settle, and says what differs from the present one', () => {
  const space = spaceOf(CHOICES);
  for (let index = 0; index < space.count; index += 7) {
    const { section, settled } = designAt(space, index);
    const parsed = lampSchema.parse(section);
    expect(section).toEqual(parsed);
    expect(settleLamp(parsed, () => {})?.settled).toEqual(settled);
  }
  const present = presentDesign(space, 'lawn');
  expect(present).toMatchObject({ index: -1, chosen: [], changed: [] });
  const last = designAt(space, space.count - 1);
  expect(last.changed).toEqual([
    'stand.cell_tilt_deg',
    'cell.part',
    'cell.parallel',
    'capacitor.capacitance_F',
    'capacitor.limiter',
  ]);
  expect(last.section.capacitor.limiter).toMatchObject({ at_V: 2.6, slope_ohm: 0.1 });
  expect(last.section.capacitor.leakage_uA).toBe(present.section.capacitor.leakage_uA);
});

it('has the same lamps in every spot, made once for all spaces of the same parts', () => {
  const two = changed(['lamps:\n', '  hedge: { cell_tilt_deg: 20, cell_bearing_deg: 90 }\nlamps:\n']);
  const spaces = spacesOf(load(`${two}${CHOICES}`), {});
  expect(spaces.map(({ count }) => count)).toEqual([224, 224]);
  const lamps: KnownLamps = new Map();
  for (const space of spaces) {
    expect(space.parts).toBe(spaces[0]!.parts);
    const trials = new DesignTrials(space, scenarioLights(space.scenario, undefined), lamps);
    for (let index = 0; index < space.count; index += 5) {
      const design = designAt(space, index);
      expect(trials.lamp(design)).toEqual(trials.lampOf(design.settled));
    }
  }
  expect(lamps.size).toBeLessThanOrEqual(112);
});

it('says where and why there is nothing to choose, or far too much', () => {
  expect(refusedBy('').message).toMatch(/SCENARIO_MISSING_KEY.*"choices"[\s\S]*add choices/);
  const many = `choices:
  cell: { parallel: 1..100 by 1, series: 1..100 by 1 }
  capacitor: { parallel: 1..1000 by 1 }
  led: { count: 1..100 by 1 }
`;
  const [problem] = refusedBy(many).problems;
  expect(problem).toMatchObject({
    code: 'SCENARIO_OUT_OF_RANGE',
    field: 'choices.capacitor.parallel',
    ...placeOf(`${SOUND}${many}`, '1..1000'),
    expected: 'at most 200000',
  });
  expect(problem?.got).toBe(
    '1000000000 designs: 1000 of capacitor.parallel times 100 of cell.parallel times 100 of cell.series times 100 of led.count',
  );
});

it('takes another part with its own values, and leaves of the present one how many there are', () => {
  const text = changed([
    'capacitor: { part: medium-capacitor }',
    'capacitor: { part: medium-capacitor, esr_mohm: 3, parallel: 2, limiter: { at_V: 2.6 } }',
  ]);
  const space = spaceOf('choices: { capacitor: { part: [poor-capacitor, medium-capacitor] } }', text);
  const [poor, medium] = space.parts.capacitor;
  expect(poor!.section).toMatchObject({
    part: 'poor-capacitor',
    parallel: 2,
    limiter: { at_V: 2.6 },
    esr_mohm: 15,
  });
  // The same part without what the lamp says beside it is another.
  expect(medium!.section.esr_mohm).toBe(7);
  expect(medium!.changed).toEqual(['capacitor.part']);
});

it('makes of the demo some hundreds of designs in each spot, all with a price', () => {
  const file = fileURLToPath(new URL('../../scenarios/cheapest-lamp.yaml', import.meta.url));
  const scenario = loadScenario(file, 'cheapest-lamp.yaml');
  expect(designSpace(scenario).count).toBe(2400);
  const space = designSpace(scenario, { spot: 'north-side' });
  expect(space.count).toBe(1200);
  const prices = Array.from({ length: space.count }, (_, index) => designAt(space, index).price);
  expect(prices.every((price) => price !== undefined)).toBe(true);
  // Cell, diode and jar lie in the drawer.
  expect(presentDesign(space, 'north-side').price).toBeCloseTo(4.8 + 0.9 + 0.25, 9);
  const first = designAt(space, 0);
  expect(first.spot.name).toBe('north-side');
  expect(first.changed).toEqual(['capacitor.part', 'driver.inductance_uH']);
});
