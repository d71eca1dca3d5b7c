import { describe, expect, it } from 'vitest';
import { keyWords } from '../../sim/output/keyWords.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { PARTS, type Part } from '../../sim/scenario/parts.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';
import { uncertainValues } from '../../sim/scenario/uncertainValues.ts';
import { howToKnow } from '../../sim/trial/howToKnow.ts';
import { changed, load } from './writeScenario.ts';

/** Values by 'section.key'. */
function valuesOf(scenario: Scenario) {
  return Object.fromEntries(
    uncertainValues(scenario).flatMap(({ section, from, assumed, ends: [one, other] }) =>
      Object.keys(assumed).map((key) => [
        [...section, key].join('.'),
        { from, assumed: assumed[key], ends: [one[key], other[key]] },
      ]),
    ),
  );
}

const uncertain = (...changes: readonly (readonly [string, string])[]) => valuesOf(load(changed(...changes)));

/** Every node of a schema that says what its default may be instead, by its key and that of the section above. */
function ranges(node: SchemaNode, path: readonly string[] = []): [string, SchemaNode][] {
  const below = [...(node.oneOf ?? []), ...(node.anyOf ?? [])].flatMap((form) => ranges(form, path));
  const keys = Object.entries(node.properties ?? {}).flatMap(([key, each]) => ranges(each, [...path, key]));
  const named = typeof node.additionalProperties === 'object' ? ranges(node.additionalProperties, path) : [];
  const own: [string, SchemaNode][] = node.between === undefined ? [] : [[path.slice(-2).join('.'), node]];
  return [...own, ...keys, ...named, ...below];
}

describe('what a default may be instead', () => {
  const found = ranges(mergedSchema());

  it('has the default within it, and an assumption beside it', () => {
    expect(found.length).toBeGreaterThan(25);
    for (const [key, node] of found) {
      const { between, assumption, default: usual } = node as SchemaNode & { default: number | string };
      expect(assumption, key).toBeDefined();
      if (typeof usual !== 'number') continue;
      const [low, high] = between as readonly [number, number];
      expect(low, key).toBeLessThan(high);
      expect(usual, key).toBeGreaterThanOrEqual(low);
      expect(usual, key).toBeLessThanOrEqual(high);
    }
  });

  it('has words for a maker, and a way to know it, as has what parts may be', () => {
    const { lamps } = loadScenario('scenarios/invented-garden.yaml');
    const { settled } = lamps[0]!;
    const ofParts = Object.entries(PARTS).flatMap(([kind, shelf]) =>
      Object.values(shelf as Record<string, Part>).flatMap(({ spans }) =>
        spans.map(({ poor }) => `${kind}.${Object.keys(poor)[0]}`),
      ),
    );
    // Keys of the site and of a spot itself go by their own name.
    const keys = [...found.map(([key]) => key.replace(/^(site|spots)\./, '')), ...ofParts];
    for (const key of new Set(keys)) {
      expect(keyWords(key), key).not.toBe(key);
      const know = howToKnow(key, { worse: settled, assumed: settled, better: settled });
      expect(know, key).toBeDefined();
      // What is to be known is no half of how.
      expect(know!.how.startsWith(know!.what), key).toBe(false);
    }
  });
});

describe('what a scenario was not told', () => {
  it('is what its parts give and its defaults stand for, each with both ends', () => {
    const found = uncertain();
    expect(found['lamps.single.cell.shunt_V']).toEqual({ from: 'part', assumed: 200, ends: [50, 600] });
    expect(found['lamps.single.capacitor.leakage_e_fold_V']).toEqual({
      from: 'default',
      assumed: 0.3,
      ends: [0.2, 0.6],
    });
    expect(found['site.albedo']).toEqual({ from: 'default', assumed: 0.2, ends: [0.1, 0.3] });
    expect(found['spots.lawn.cover.dirt_loss']).toEqual({ from: 'default', assumed: 0, ends: [0, 0.1] });
    // Of the cover that was not written either.
    expect(found['spots.lawn.cover.absorption_per_m']!.from).toBe('part');
  });

  it('leaves out what is stated, and what is stated with it', () => {
    const found = uncertain(
      ['{ part: medium-capacitor }', '{ part: medium-capacitor, capacitance_F: 360, delayed_share: 0.1 }'],
      ['{ part: small-cell }', '{ part: small-cell, best_current_mA: 460 }'],
      ['longitude_deg: 10', 'longitude_deg: 10\n  albedo: 0.2'],
    );
    const names = Object.keys(found);
    for (const stated of [
      'lamps.single.capacitor.capacitance_F',
      'lamps.single.capacitor.delayed_share',
      'lamps.single.cell.short_circuit_mA',
      'site.albedo',
    ]) {
      expect(names).not.toContain(stated);
    }
    expect(names).toContain('lamps.single.capacitor.leakage_uA');
  });

  it('leaves out what another key has taken the place of', () => {
    const found = uncertain(
      [
        '{ part: small-cell }',
        '{ part: small-cell, low_light_point: { irradiance_W_m2: 50, open_circuit_V: 1.9 } }',
      ],
      ['    schedule:', '    jar: { fixed_degC: 20 }\n    schedule:'],
    );
    const names = Object.keys(found).join();
    expect(names).not.toContain('shunt_V');
    expect(names).not.toContain('jar');
  });

  it('leaves out what readings have settled', () => {
    const names = Object.keys(valuesOf(loadScenario('scenarios/bench-readings.yaml')));
    expect(names.filter((name) => /lamps.measured.(cell|led|jar.rise|driver)/.test(name))).toEqual(
      [
        'lamps.measured.cell.voltage_tempco_mV_K',
        'lamps.measured.driver.rectifier_drop_V',
        'lamps.measured.driver.below_cutoff_uA',
      ].filter((name) => names.includes(name)),
    );
    expect(names).not.toContain('lamps.measured.capacitor.leakage_uA');
    expect(names).toContain('lamps.measured.capacitor.leakage_law');
  });
});
