import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';
import { scenarioJsonSchema } from '../../sim/scenario/scenarioJsonSchema.ts';

const schema = scenarioJsonSchema();
const lamp = (schema.properties!.lamps!.additionalProperties as SchemaNode).properties!;

describe('scenarioJsonSchema', () => {
  it('is draft 2020-12, in plain JSON, and leaves the schema it was made from alone', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
    const merged = (mergedSchema().properties!.lamps!.additionalProperties as SchemaNode).properties!;
    expect(merged.cell!.required).toEqual(['cells_in_series']);
  });

  it('keeps unit, title and assumption', () => {
    expect(lamp.cell!.properties!.voltage_tempco_mV_K).toMatchObject({
      unit: 'mV/K',
      default: -2.2,
      title: expect.stringContaining('open-circuit voltage'),
      assumption: expect.stringContaining('from memory'),
    });
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

  it('gives every key of every map a title', () => {
    const untitled: string[] = [];
    const visit = (node: SchemaNode, path: string): void => {
      for (const [key, below] of Object.entries(node.properties ?? {})) {
        if (below.title === undefined) untitled.push(`${path}.${key}`);
        visit(below, `${path}.${key}`);
      }
      if (typeof node.additionalProperties === 'object') visit(node.additionalProperties, `${path}.*`);
      if (node.items) visit(node.items, `${path}[]`);
      for (const form of [...(node.anyOf ?? []), ...(node.oneOf ?? [])]) visit(form, path);
    };
    visit(schema, '');
    expect(untitled).toEqual([]);
  });

  it.each(['invented-garden', 'dusk-to-dawn', 'raw-parameters'])('accepts scenarios/%s.yaml', (name) => {
    const text = readFileSync(new URL(`../../scenarios/${name}.yaml`, import.meta.url), 'utf8');
    const reader = z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]);
    expect(reader.safeParse(parse(text)).error?.issues).toBeUndefined();
    expect(reader.safeParse({ ...parse(text), format: 2 }).success).toBe(false);
  });
});
