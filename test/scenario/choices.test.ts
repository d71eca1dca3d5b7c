import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { describeScenario, scenarioData } from '../../sim/output/describeScenario.ts';
import { countOf } from '../../sim/scenario/choices.ts';
import { mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';
import { scenarioJsonSchema } from '../../sim/scenario/scenarioJsonSchema.ts';
import { load, placeOf, refused, SOUND } from './writeScenario.ts';

const CHOICES = `choices:
  spot: [lawn]
  stand: { cell_tilt_deg: [10, 0.5 rad], cell_bearing_deg: SSW }
  cell: { part: [small-cell, good-cell], parallel: 1..3 by 1 }
  capacitor:
    capacitance_F: [100..220 by E6, 360 F]
    limiter: [none, { at_V: 2600 mV }]
  driver: { inductance_uH: 330..1000 by E12 }
  led: { count: 2 }
  schedule: { until: [dawn, "23:00"] }
`;

describe('choicesOf', () => {
  it('writes out lists, ranges and single values in the unit of their key, with their place', () => {
    const { choices } = load(SOUND + CHOICES);
    expect(choices?.map(({ section, key, values }) => [section, key, values])).toEqual([
      ['spot', '', ['lawn']],
      ['stand', 'cell_tilt_deg', [10, 28.6478897565]],
      ['stand', 'cell_bearing_deg', ['SSW']],
      ['cell', 'part', ['small-cell', 'good-cell']],
      ['cell', 'parallel', [1, 2, 3]],
      ['capacitor', 'capacitance_F', [100, 150, 220, 360]],
      ['capacitor', 'limiter', [null, { at_V: 2.6 }]],
      ['driver', 'inductance_uH', [330, 390, 470, 560, 680, 820, 1000]],
      ['led', 'count', [2]],
      ['schedule', 'until', ['dawn', '23:00']],
    ]);
    expect(countOf(choices!)).toBe(2 * 2 * 3 * 4 * 2 * 7 * 2);
    expect(choices![4]).toMatchObject(placeOf(SOUND + CHOICES, '1..3'));
    expect(choices!.map(({ unit }) => unit)).toEqual([
      ...[undefined, 'deg', 'deg', undefined, undefined],
      ...['F', undefined, 'uH', undefined, undefined],
    ]);
  });

  it('is shown by check, and changes nothing else of a scenario', () => {
    const [without, scenario] = [load(SOUND), load(SOUND + CHOICES)];
    const { choices, ...resolved } = scenario.resolved;
    expect(resolved).toEqual({ ...without.resolved, name: resolved.name });
    expect(scenario.lamps).toEqual(without.lamps);
    expect(scenario.assumptions).toEqual(without.assumptions);
    expect(choices).toMatchObject({ cell: { parallel: '1..3 by 1' }, led: { count: 2 } });
    expect(scenario.origins.find(({ path }) => path.join('.') === 'choices.led.count')).toMatchObject({
      value: 2,
      from: `scenario line ${placeOf(SOUND + CHOICES, 'led: { count').line}`,
    });
    const text = describeScenario(scenario).replace(/\s+/g, ' ');
    expect(text).toContain('Choices 1344 designs: 2 of stand.cell_tilt_deg times 2 of cell.part times');
    expect(scenarioData(scenario).designs).toBe(1344);
    expect(scenarioData(without)).not.toHaveProperty('designs');
    expect(without.choices).toBeUndefined();
  });

  it.each([
    ['cel: { parallel: 1 }', 'cel', 'SCENARIO_UNKNOWN_KEY', 'did you mean "cell"?'],
    ['cell: { paralel: 1 }', 'cell.paralel', 'SCENARIO_UNKNOWN_KEY', 'did you mean "parallel"?'],
    ['cell: { shunt_mV: 1 }', 'cell.shunt_mV', 'SCENARIO_WRONG_UNIT', 'write shunt_V: 0.001.'],
    ['cell: [1]', 'cell', 'SCENARIO_WRONG_TYPE', undefined],
    ['cell: { parallel: [2, 0] }', 'cell.parallel.1', 'SCENARIO_OUT_OF_RANGE', 'check the value.'],
    ['cell: { parallel: 0..3 by 1 }', 'cell.parallel', 'SCENARIO_OUT_OF_RANGE', 'check the value.'],
    ['cell: { parallel: 1..3 by 0.5 }', 'cell.parallel', 'SCENARIO_WRONG_TYPE', undefined],
    [
      'cell: { parallel: [] }',
      'cell.parallel',
      'SCENARIO_OUT_OF_RANGE',
      'write the values that it may have, or take the key away.',
    ],
    [
      'cell: { parallel: }',
      'cell.parallel',
      'SCENARIO_MISSING_KEY',
      'write what parallel may be, or take the key away.',
    ],
    [
      'capacitor: { capacitance_F: 110..140 by E6 }',
      'capacitor.capacitance_F',
      'SCENARIO_OUT_OF_RANGE',
      'the nearest of E6 are 100 and 150.',
    ],
    [
      'capacitor: { capacitance_F: 100 V }',
      'capacitor.capacitance_F',
      'SCENARIO_WRONG_UNIT',
      'write it in F, mF, uF, nF, pF; a number alone is read in F.',
    ],
    [
      'capacitor: { capacitance_F: [100..220 by E6, 150 F] }',
      'capacitor.capacitance_F.1',
      'SCENARIO_CONFLICT',
      'take one of the two away.',
    ],
    [
      'capacitor: { part: [good-capacitor, medum-capacitor] }',
      'capacitor.part.1',
      'SCENARIO_UNKNOWN_PART',
      'did you mean "medium-capacitor"?',
    ],
    [
      'diode: { part: { key: value } }',
      'diode.part',
      'SCENARIO_WRONG_TYPE',
      'write the name of a part, or a list of names.',
    ],
    [
      'capacitor: { part: [good-capacitor], parallel: 2, limiter: none, esr_mohm: 3 }',
      'capacitor.esr_mohm',
      'SCENARIO_CONFLICT',
      'take esr_mohm away, or write parts with other values into your parts file.',
    ],
    [
      'capacitor: { limiter: [{ at: 2.6 }] }',
      'capacitor.limiter.0.at',
      'SCENARIO_UNKNOWN_KEY',
      'did you mean "at_V"?',
    ],
    [
      'cell: { readings: [] }',
      'cell.readings',
      'SCENARIO_WRONG_TYPE',
      'write each as a part of its own into your parts file, and choose cell: { part: [...] }.',
    ],
    [
      'driver: { kind: [boost, power] }',
      'driver.kind',
      'SCENARIO_WRONG_TYPE',
      'write each as a part of its own into your parts file, and choose driver: { part: [...] }.',
    ],
    [
      'led: { price: [1, 2] }',
      'led.price',
      'SCENARIO_WRONG_TYPE',
      'write price beside the part, in the lamp or in your parts file.',
    ],
    ['schedule: { dim: [] }', 'schedule.dim', 'SCENARIO_WRONG_TYPE', 'write it into the lamp.'],
    ['schedule: { hours: 6, until: dawn }', 'schedule.until', 'SCENARIO_CONFLICT', 'take one away.'],
    ['driver: { inductance_uH: [none, 330] }', 'driver.inductance_uH.0', 'SCENARIO_WRONG_TYPE', undefined],
    ['driver: { inductance_uH: [null, 330] }', 'driver.inductance_uH.0', 'SCENARIO_MISSING_KEY', undefined],
    ['spot: [lawn, lown]', 'spot.1', 'SCENARIO_OUT_OF_RANGE', 'did you mean "lawn"?'],
    ['stand: { cell_tilt: 3 }', 'stand.cell_tilt', 'SCENARIO_UNKNOWN_KEY', 'did you mean "cell_tilt_deg"?'],
    ['stand: { cell_tilt_deg: [95] }', 'stand.cell_tilt_deg.0', 'SCENARIO_OUT_OF_RANGE', undefined],
  ])('refuses %s by its line and key', (text, field, code, fix) => {
    const { problems, message } = refused(`${SOUND}choices:\n  ${text}\n`);
    expect(problems, message).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      code,
      field: `choices.${field}`,
      line: SOUND.split('\n').length + 1,
    });
    if (fix !== undefined) expect(problems[0]?.fix).toBe(fix);
  });

  it('says what it expects in the words and the range of the key', () => {
    const { problems } = refused(`${SOUND}choices: { cell: { parallel: [0] } }\n`);
    expect(problems[0]).toMatchObject({
      got: '0',
      expected: 'a whole number from 1 to 100 (cells in parallel)',
    });
  });
});

describe('the schema of choices', () => {
  const { properties } = mergedSchema().properties!.choices!;

  it('has the keys of a lamp that take one value, each with its title and unit', () => {
    expect(Object.keys(properties!).toSorted()).toEqual(
      ['spot', 'stand', 'cell', 'diode', 'capacitor', 'driver', 'led', 'jar', 'schedule'].toSorted(),
    );
    const { capacitor, driver, led } = properties!;
    expect(capacitor!.properties!.capacitance_F).toMatchObject({
      unit: 'F',
      title: expect.stringContaining('rated capacitance'),
    });
    expect(Object.keys(led!.properties!)).toEqual(['part', 'lowest_degC', 'count', 'in_series']);
    expect(Object.keys(driver!.properties!)).toContain('inductance_uH');
    expect(Object.keys(driver!.properties!)).toContain('power_mW');
  });

  it('takes for an editor what the reader takes', () => {
    const choices = scenarioJsonSchema().properties!.choices as SchemaNode;
    const reader = z.fromJSONSchema(choices as Parameters<typeof z.fromJSONSchema>[0]);
    const takes = (value: unknown) => reader.safeParse(value).success;
    expect(takes({ capacitor: { capacitance_F: '100..1000 by E6', limiter: ['none', { at_V: 2.6 }] } })).toBe(
      true,
    );
    expect(takes({ capacitor: { capacitance_F: [100, '220 F', '330..470 by E6'] } })).toBe(true);
    expect(takes({ spot: ['lawn'], stand: { cell_bearing_deg: ['SSW', 180] } })).toBe(true);
    expect(takes({ cell: { parallel: [0] } })).toBe(false);
    expect(takes({ cell: { readings: [1] } })).toBe(false);
    expect(takes({ cel: {} })).toBe(false);
  });
});
