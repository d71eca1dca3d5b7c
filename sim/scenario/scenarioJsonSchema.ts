import { keyGuide } from './keyGuide.ts';
import { LAMP_PARTS, PARTS, type PartKind } from './parts.ts';
import { mergedSchema, type SchemaNode } from './SchemaNode.ts';

/** How numbers may be written; what of it fits a key only the reader of a scenario tells. */
const NUMBERS =
  "A number is in its key's unit. It may also be text with a unit of the same quantity, as '180 cm', '0.7 mA', '15 min' or '80 %', which is converted.";

/** A text that begins with a number. */
const NUMBER_FIRST = /^\s*[-+\u2212]?[.,]?\d/.source;

/**
 * The scenario as JSON Schema (draft 2020-12) for editors: as the user writes it, so that a part of the library may
 * stand for the keys it supplies, and a text with a unit for a number. Each key carries its `title`, and a `description`
 * with its unit, what is usual, how to measure it, and what its default rests on. No keyword is outside of the draft.
 */
export function scenarioJsonSchema(): SchemaNode {
  const schema = { ...told(mergedSchema(), []), description: NUMBERS };
  const lamp = schema.properties!.lamps!.additionalProperties as SchemaNode;
  for (const kind of LAMP_PARTS) {
    lamp.properties![kind] = withParts(lamp.properties![kind]!, kind);
  }
  const spot = schema.properties!.spots!.additionalProperties as SchemaNode;
  spot.properties!.cover = withParts(spot.properties!.cover!, 'cover');
  return schema;
}

/** A node and all below it as an editor takes it. in: path, keys from the root, '*' for a name */
function told(node: SchemaNode, path: readonly string[]): SchemaNode {
  const { unit: _, assumption: __, between: ___, ...standard } = node;
  const { properties, additionalProperties: others, items, anyOf, oneOf } = node;
  const description = descriptionOf(node, path);
  return withText({
    ...standard,
    ...(description === '' ? {} : { description }),
    ...(properties && {
      properties: Object.fromEntries(
        Object.entries(properties).map(([key, below]) => [key, told(below, [...path, key])]),
      ),
    }),
    ...(typeof others === 'object' && { additionalProperties: told(others, [...path, '*']) }),
    ...(items && { items: told(items, [...path, '[]']) }),
    ...(anyOf && { anyOf: anyOf.map((form) => told(form, path)) }),
    ...(oneOf && { oneOf: oneOf.map((form) => told(form, path)) }),
  });
}

/** What an editor says of a key: what it is, its unit, what is usual, how to know it, what stands in for it. */
function descriptionOf(node: SchemaNode, path: readonly string[]): string {
  if (node.title === undefined) return '';
  const { typical, read } = keyGuide(path) ?? {};
  const sentences = [
    node.title,
    node.unit !== undefined && node.unit !== '1' && `Unit: ${node.unit}`,
    typical !== undefined && `Usual: ${typical}`,
    read !== undefined && `To know it: ${read}`,
    node.assumption !== undefined && `Where not given: ${standIn(node)}`,
  ].filter((sentence) => typeof sentence === 'string');
  return sentences.map((each) => `${each.charAt(0).toUpperCase()}${each.slice(1)}.`).join(' ');
}

function standIn({ default: value, assumption }: SchemaNode): string {
  return ['string', 'number'].includes(typeof value) ? `${value} (${assumption})` : assumption!;
}

/** A number for which a text that begins with one may stand. */
function withText(node: SchemaNode): SchemaNode {
  const { type, const: only, minimum, maximum, exclusiveMinimum, exclusiveMaximum, ...rest } = node;
  if ((type !== 'number' && type !== 'integer') || only !== undefined) return node;
  const limits = { minimum, maximum, exclusiveMinimum, exclusiveMaximum };
  const stated = Object.fromEntries(Object.entries(limits).filter(([, limit]) => limit !== undefined));
  return {
    ...rest,
    anyOf: [
      { type, ...stated },
      { type: 'string', pattern: NUMBER_FIRST },
    ],
  };
}

const KIND = 'What it draws; the part says it too';

/** A part's schema in which either a name of the library or the required keys are given. */
function withParts(node: SchemaNode, kind: PartKind): SchemaNode {
  const forms = node.oneOf;
  if (forms !== undefined) {
    const { oneOf: _, ...rest } = node;
    const properties = Object.assign({}, ...forms.map((form) => form.properties)) as Record<
      string,
      SchemaNode
    >;
    const kinds = forms.map((form) => form.properties!.kind!.const);
    const named: SchemaNode = {
      type: 'object',
      properties: { ...properties, kind: { title: KIND, description: `${KIND}.`, enum: kinds } },
      required: ['part'],
      additionalProperties: false,
    };
    return { ...rest, anyOf: [...forms.map((form) => partNames(form, kind)), partNames(named, kind)] };
  }
  const { required = [], ...rest } = partNames(node, kind);
  return required.length === 0 ? rest : { ...rest, anyOf: [{ required: ['part'] }, { required }] };
}

function partNames(node: SchemaNode, kind: PartKind): SchemaNode {
  const properties = { ...node.properties! };
  const { type, ...named } = properties.part!;
  properties.part = {
    ...named,
    anyOf: [{ enum: Object.keys(PARTS[kind]) }, { type: 'string', title: `a ${kind} of the own parts` }],
  };
  return { ...node, properties };
}
