import { z } from 'zod';
import type { KeyPath } from '../common/document.ts';
import { isMap } from './paths.ts';
import { scenarioSchema } from './schema.ts';

/** A node of a JSON Schema, as far as it is looked at here. */
export interface SchemaNode {
  $schema?: string;
  type?: string;
  title?: string;
  unit?: string;
  assumption?: string;
  const?: unknown;
  enum?: readonly unknown[];
  pattern?: string;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  exclusiveMaximum?: number;
  minItems?: number;
  maxItems?: number;
  properties?: Record<string, SchemaNode>;
  required?: string[];
  additionalProperties?: boolean | SchemaNode;
  items?: SchemaNode;
  anyOf?: SchemaNode[];
  oneOf?: SchemaNode[];
}

let made: SchemaNode | undefined;

/** The scenario's schema after parts are merged, as JSON Schema (draft 2020-12); made once. Not to be changed. */
export function mergedSchema(): SchemaNode {
  made ??= z.toJSONSchema(scenarioSchema, { io: 'input' }) as SchemaNode;
  return made;
}

/** The forms a value may take: of a choice by a constant key (as a driver's kind), the one the value chose. */
export function formsOf(node: SchemaNode, value: unknown): SchemaNode[] {
  const forms = node.oneOf ?? node.anyOf;
  if (forms === undefined) return [node];
  if (!isMap(value)) return forms;
  const chosen = forms.filter((form) =>
    Object.entries(form.properties ?? {}).some(
      ([key, { const: constant }]) => constant !== undefined && constant === value[key],
    ),
  );
  return chosen.length > 0 ? chosen : forms;
}

/**
 * The schema at a path, or undefined where the scenario knows none.
 *
 * in: path; root, the value the path goes through, which decides between forms
 */
export function schemaAt(path: KeyPath, root: unknown): SchemaNode | undefined {
  let node: SchemaNode | undefined = mergedSchema();
  let value = root;
  for (const step of path) {
    const next: (SchemaNode | undefined)[] = formsOf(node, value).map((form) => below(form, step));
    node = next.find((form) => form !== undefined);
    if (node === undefined) return undefined;
    value = (value as Record<string | number, unknown> | null | undefined)?.[step];
  }
  return node;
}

/** Schemas of the keys that a map may have, by key. */
export function keysOf(node: SchemaNode, value: unknown): Record<string, SchemaNode> {
  return Object.assign({}, ...formsOf(node, value).map((form) => form.properties ?? {}));
}

function below(node: SchemaNode, step: string | number): SchemaNode | undefined {
  if (typeof step === 'number') return node.items;
  const known = node.properties;
  if (known !== undefined && Object.hasOwn(known, step)) return known[step];
  return typeof node.additionalProperties === 'object' ? node.additionalProperties : undefined;
}
