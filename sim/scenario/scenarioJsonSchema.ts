import { LAMP_PARTS, PARTS, type PartKind } from './parts.ts';
import { mergedSchema, type SchemaNode } from './SchemaNode.ts';

/** How numbers may be written; what of it fits a key only the reader of a scenario tells. */
const NUMBERS =
  "A number is in its key's unit. It may also be text with a unit of the same quantity, as '180 cm', '0.7 mA', '15 min' or '80 %', which is converted.";

/** A text that begins with a number. */
const NUMBER_FIRST = /^\s*[-+\u2212]?[.,]?\d/.source;

/**
 * The scenario as JSON Schema (draft 2020-12) for editors: as the user writes it, so that a part of the library may
 * stand for the keys it supplies, and a text with a unit for a number. Each key carries its `title`, `unit` and the
 * `assumption` behind its default.
 */
export function scenarioJsonSchema(): SchemaNode {
  const schema = { description: NUMBERS, ...withTexts(mergedSchema()) };
  const lamp = schema.properties!.lamps!.additionalProperties as SchemaNode;
  for (const kind of LAMP_PARTS) {
    lamp.properties![kind] = withParts(lamp.properties![kind]!, kind);
  }
  const spot = schema.properties!.spots!.additionalProperties as SchemaNode;
  spot.properties!.cover = withParts(spot.properties!.cover!, 'cover');
  return schema;
}

/** A node and all below it, in which a text that begins with a number may stand for a number. */
function withTexts<Node>(node: Node): Node {
  if (Array.isArray(node)) return node.map(withTexts) as Node;
  if (typeof node !== 'object' || node === null) return node;
  const copy = Object.fromEntries(Object.entries(node).map(([name, value]) => [name, withTexts(value)]));
  const { type, const: only } = node as SchemaNode;
  const isNumber = (type === 'number' || type === 'integer') && only === undefined;
  return (isNumber ? { ...copy, type: [type, 'string'], pattern: NUMBER_FIRST } : copy) as Node;
}

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
      properties: { ...properties, kind: { title: 'what it draws; the part says it too', enum: kinds } },
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
