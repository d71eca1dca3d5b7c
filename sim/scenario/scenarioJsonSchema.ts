import { LAMP_PARTS, PARTS, type PartKind } from './parts.ts';
import { mergedSchema, type SchemaNode } from './SchemaNode.ts';

/**
 * The scenario as JSON Schema (draft 2020-12) for editors: as the user writes it, so that a part of the library may
 * stand for the keys it supplies. Each key carries its `title`, `unit` and the `assumption` behind its default.
 */
export function scenarioJsonSchema(): SchemaNode {
  const schema = structuredClone(mergedSchema());
  const lamp = schema.properties!.lamps!.additionalProperties as SchemaNode;
  for (const kind of LAMP_PARTS) {
    lamp.properties![kind] = withParts(lamp.properties![kind]!, kind);
  }
  const spot = schema.properties!.spots!.additionalProperties as SchemaNode;
  spot.properties!.cover = withParts(spot.properties!.cover!, 'cover');
  return schema;
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
  properties.part = { ...properties.part!, enum: Object.keys(PARTS[kind]) };
  return { ...node, properties };
}
