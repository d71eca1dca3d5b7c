import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { GUIDED_KEYS, keyGuide } from '../../sim/scenario/keyGuide.ts';
import { mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';
import { scenarioJsonSchema } from '../../sim/scenario/scenarioJsonSchema.ts';

const schema = scenarioJsonSchema();
const lamp = (schema.properties!.lamps!.additionalProperties as SchemaNode).properties!;

/** Visits the node of every key, the whole first; path, keys from the root, '*' for a name and '[]' for a row. */
function eachNode(node: SchemaNode, path: string[], visit: (node: SchemaNode, path: string[]) => void): void {
  visit(node, path);
  belowOf(node, path, visit);
}

function belowOf(node: SchemaNode, path: string[], visit: (node: SchemaNode, path: string[]) => void): void {
  for (const [key, below] of Object.entries(node.properties ?? {})) eachNode(below, [...path, key], visit);
  if (typeof node.additionalProperties === 'object')
    belowOf(node.additionalProperties, [...path, '*'], visit);
  if (node.items) belowOf(node.items, [...path, '[]'], visit);
  for (const form of [...(node.anyOf ?? []), ...(node.oneOf ?? [])]) belowOf(form, path, visit);
}

describe('scenarioJsonSchema', () => {
  it('is draft 2020-12, in plain JSON, and leaves the schema it was made from alone', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
    const merged = (mergedSchema().properties!.lamps!.additionalProperties as SchemaNode).properties!;
    expect(merged.cell!.required).toEqual(['cells_in_series']);
  });

  it('says of a key what it is, its unit, what is usual, how to know it and what its default rests on', () => {
    const { title, description, default: value } = lamp.cell!.properties!.voltage_tempco_mV_K!;
    expect({ title, value }).toEqual({
      title: 'change of the open-circuit voltage with temperature, for each junction',
      value: -2.2,
    });
    expect(description).toMatch(
      /^Change of the open-circuit voltage .*junction\. Unit: mV\/K\. Usual: -2\.3 to -1\.9 .*\. To know it: open circuit in full sun, .*\. Where not given: -2\.2 \(.*from memory.*\)\.$/,
    );
  });

  it('has no keyword beyond its draft, for validators that take no other', () => {
    const known =
      /^(\$schema|title|description|default|type|const|enum|pattern|minimum|maximum|exclusiveMinimum|exclusiveMaximum|minLength|maxLength|minItems|maxItems|properties|required|additionalProperties|propertyNames|items|anyOf|oneOf)$/;
    const odd = new Set<string>();
    eachNode(schema, [], (node) => {
      for (const keyword of Object.keys(node)) if (!known.test(keyword)) odd.add(keyword);
    });
    expect([...odd]).toEqual([]);
  });

  it('has a guide for every number of a part, and no guide without its key', () => {
    const guided = new Set<string>();
    const without: string[] = [];
    eachNode(mergedSchema(), [], (node, path) => {
      const [section, ...keys] = path.filter((step) => step !== '*' && step !== '[]');
      const key = (section === 'lamps' || section === 'spots' ? keys : [section, ...keys]).join('.');
      const ofPart = section === 'lamps' && !keys.includes('raw') && !keys.includes('readings');
      if (keyGuide(path) !== undefined) guided.add(key);
      else if (ofPart && keys[0] !== 'schedule' && node.unit !== undefined) without.push(key);
    });
    expect(without).toEqual([]);
    expect(GUIDED_KEYS.filter((key) => !guided.has(key))).toEqual([]);
  });

  it('asks for a part of the library or for what it would supply', () => {
    expect(lamp.cell!.required).toBeUndefined();
    expect(lamp.cell!.anyOf).toEqual([{ required: ['part'] }, { required: ['cells_in_series'] }]);
    expect(lamp.capacitor!.anyOf).toEqual([{ required: ['part'] }, { required: ['rated_V'] }]);
    expect(lamp.cell!.properties!.part!.anyOf![0]!.enum).toEqual(['small-cell', 'poor-cell', 'good-cell']);
  });

  it('takes a driver by its kind, or by its part alone', () => {
    const forms = lamp.driver!.anyOf!;
    expect(forms.map(({ properties }) => properties!.kind!.const)).toEqual([
      'power',
      'current',
      'conductance',
      'boost',
      'table',
      undefined,
    ]);
    const byPart = forms.at(-1)!;
    expect(byPart.required).toEqual(['part']);
    expect(byPart.properties!.kind!.enum).toEqual(['power', 'current', 'conductance', 'boost', 'table']);
    expect(Object.keys(byPart.properties!)).toContain('inductance_uH');
  });

  it('lets a text with a number stand where a number may', () => {
    const reader = z.fromJSONSchema(lamp.capacitor as Parameters<typeof z.fromJSONSchema>[0]);
    const takes = (leakage: unknown) =>
      reader.safeParse({ part: 'medium-capacitor', leakage_uA: leakage }).success;
    expect([700, '0.7 mA', '0,7mA', -1, 'none'].map(takes)).toEqual([true, true, true, false, false]);
    expect(schema.description).toContain("'180 cm'");
    expect(schema.properties!.format).toMatchObject({ const: 1, type: 'number' });
  });

  it('gives every key of every map a title and a description', () => {
    const untold: string[] = [];
    eachNode(schema, [], ({ title, description }, path) => {
      if (path.length > 0 && (title === undefined || description === undefined)) untold.push(path.join('.'));
    });
    expect(untold).toEqual([]);
  });

  it.each(['invented-garden', 'dusk-to-dawn', 'raw-parameters'])('accepts scenarios/%s.yaml', (name) => {
    const text = readFileSync(new URL(`../../scenarios/${name}.yaml`, import.meta.url), 'utf8');
    const reader = z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]);
    expect(reader.safeParse(parse(text)).error?.issues).toBeUndefined();
    expect(reader.safeParse({ ...parse(text), format: 2 }).success).toBe(false);
  });
});
