import * as z from 'zod';
import type { KeyPath } from '../common/document.ts';
import { isMap } from './paths.ts';
import { scenarioSchema } from './schema.ts';
import { unitInWords } from './unitSuffixes.ts';

/** A node of a JSON Schema, as far as it is looked at here. */
export interface SchemaNode {
  $schema?: string;
  /** Of what is handed to editors a list, where a text may stand for a number. */
  type?: string | readonly string[];
  title?: string;
  description?: string;
  unit?: string;
  default?: unknown;
  assumption?: string;
  /** Of a default: from what to what it may really be. */
  between?: readonly [string | number, string | number];
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

/** The schema as JSON: the build puts it in, for making it takes longer than all else of a small scenario. */
declare const BUILT_SCHEMA: string;

let made: SchemaNode | undefined;

/** The scenario's schema after parts are merged, as JSON Schema (draft 2020-12); made once. Not to be changed. */
export function mergedSchema(): SchemaNode {
  made ??= withChoices(
    typeof BUILT_SCHEMA === 'string' ? (JSON.parse(BUILT_SCHEMA) as SchemaNode) : schemaBeforeChoices(),
  );
  return made;
}

/** The same before its `choices` are made of its other keys: what the build puts in. */
export function schemaBeforeChoices(): SchemaNode {
  return withUnits(z.toJSONSchema(scenarioSchema, { io: 'input' }) as SchemaNode, '');
}

function withChoices(schema: SchemaNode): SchemaNode {
  const { choices, lamps, spots } = schema.properties!;
  const lamp = (lamps!.additionalProperties as SchemaNode).properties!;
  const spot = (spots!.additionalProperties as SchemaNode).properties!;
  const sections = choices!.properties!;
  sections.spot = choiceNode({ type: 'string', title: 'spots that it may stand in' }, true)!;
  for (const [name, section] of Object.entries(lamp))
    sections[name] = choicesNode(section, keysOf(section, undefined));
  sections.stand = choicesNode(
    { title: 'how the cell lies in its spot' },
    Object.fromEntries(STAND_KEYS.map((key) => [key, spot[key]!])),
  );
  return schema;
}

/** Keys of a spot that are a matter of how the lamp is built and put. */
const STAND_KEYS = ['cell_tilt_deg', 'cell_bearing_deg', 'cell_height_m', 'cell_front'];

/** Of keys that hold keys those that may be chosen as a whole. */
const CHOSEN_WHOLE = ['limiter'];

/** What a part costs is no choice. */
export const NEVER_CHOSEN = ['price', 'price_per_F', 'pack', 'in_drawer'];

/** The choices of a section: of each key that takes one value, a value, a list of values or a range. */
function choicesNode(
  { title, required = [], oneOf }: SchemaNode,
  keys: Record<string, SchemaNode>,
): SchemaNode {
  const needed = [...required, ...(oneOf?.flatMap((form) => form.required ?? []) ?? [])];
  const properties = Object.entries(keys).flatMap(([key, node]) => {
    const choice = choiceNode(node, needed.includes(key) || key === 'part', CHOSEN_WHOLE.includes(key));
    return choice === undefined || NEVER_CHOSEN.includes(key) || (key === 'kind' && oneOf)
      ? []
      : [[key, choice]];
  });
  return {
    ...(title && { title }),
    type: 'object',
    properties: Object.fromEntries(properties),
    additionalProperties: false,
  };
}

/** One key's choice; undefined where it takes no single value. */
function choiceNode(node: SchemaNode, needed: boolean, whole = false): SchemaNode | undefined {
  const { title, unit, anyOf, default: _, assumption: __, between: ___, ...own } = node;
  const told = { ...(title && { title }), ...(unit && { unit }) };
  const forms = (anyOf ?? [own]).filter(
    ({ type, const: only, enum: some }) =>
      only !== undefined || some !== undefined || (type !== 'array' && (type !== 'object' || whole)),
  );
  if (forms.length === 0 || own.oneOf !== undefined) return undefined;
  const single = needed ? forms : [...forms, { const: 'none' }, { type: 'null' }];
  const isNumber = forms.some(({ type }) => type === 'number' || type === 'integer');
  return {
    ...told,
    anyOf: [
      ...single,
      { type: 'array', minItems: 1, items: { ...told, anyOf: single } },
      ...(isNumber ? [{ type: 'string', pattern: RANGE_FIRST }] : []),
    ],
  };
}

/** A text with two dots between numbers. */
const RANGE_FIRST = /^\s*\d.*\.\..*\d/.source;

/** A node and all below it with the unit that the name of a titled number says, where none is stated. */
function withUnits<Node>(node: Node, key: string): Node {
  if (Array.isArray(node)) return node.map((each) => withUnits(each, '')) as Node;
  if (typeof node !== 'object' || node === null) return node;
  const said = 'unit' in node || !('title' in node) ? '' : unitInWords(key);
  return Object.fromEntries(
    Object.entries(node).flatMap(([name, value]) => {
      const entry = [name, withUnits(value, name)];
      return name === 'title' && said !== '' ? [entry, ['unit', said]] : [entry];
    }),
  ) as Node;
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

/**
 * What a key wants, in words: kind of value, range, unit, and in brackets what it is.
 *
 * in: node, the key's schema
 * @example expectedWords({ type: 'number', minimum: -90, maximum: 90, unit: 'deg', title: 'latitude' }); // => 'a number from -90 to 90 deg (latitude)'
 */
export function expectedWords(node: SchemaNode | undefined): string {
  if (node === undefined) return 'a value that the scenario knows';
  const kind = kindWords(node);
  if (kind === '') return node.title ?? 'a value';
  return node.title === undefined ? kind : `${kind} (${node.title})`;
}

/** Constants a value may be, in order; none where it is free. */
export function choicesOf(node: SchemaNode): unknown[] {
  if (node.const !== undefined) return [node.const];
  if (node.enum !== undefined) return [...node.enum];
  const key =
    node.oneOf?.[0] && Object.entries(node.oneOf[0].properties ?? {}).find(([, at]) => at.const)?.[0];
  return key === undefined ? [] : node.oneOf!.map((form) => form.properties![key]!.const);
}

function kindWords(node: SchemaNode): string {
  const choices = choicesOf(node);
  if (node.oneOf === undefined && choices.length > 0) {
    return choices.length === 1 ? String(choices[0]) : `one of ${choices.join(', ')}`;
  }
  if (node.anyOf !== undefined) {
    // Of a constant or a pattern only the title tells enough.
    if (node.anyOf.some((form) => form.pattern !== undefined)) return '';
    return node.anyOf
      .map((form) => kindWords({ ...(node.unit ? { unit: node.unit } : {}), ...form }))
      .join(', or ');
  }
  switch (node.type) {
    case 'number':
      return `a number${rangeWords(node)}${unitWords(node)}`;
    case 'integer':
      return `a whole number${rangeWords(node)}${unitWords(node)}`;
    case 'string':
      return node.pattern === undefined ? 'text' : '';
    case 'boolean':
      return 'true or false';
    case 'null':
      return 'null';
    case 'array':
      return `a list${countWords(node)}`;
    default:
      return 'keys with their values';
  }
}

function unitWords(node: SchemaNode): string {
  return node.unit === undefined || node.unit === '1' ? '' : ` ${hasRange(node) ? '' : 'of '}${node.unit}`;
}

function hasRange(node: SchemaNode): boolean {
  return rangeWords(node) !== '';
}

function rangeWords(node: SchemaNode): string {
  const huge = Number.MAX_SAFE_INTEGER;
  const low = node.minimum !== undefined && node.minimum > -huge ? node.minimum : undefined;
  const high = node.maximum !== undefined && node.maximum < huge ? node.maximum : undefined;
  const above = node.exclusiveMinimum;
  if (low !== undefined) return high === undefined ? `, ${low} or more,` : ` from ${low} to ${high}`;
  if (above !== undefined)
    return high === undefined ? ` above ${above}` : ` above ${above} and up to ${high}`;
  return high === undefined ? '' : ` up to ${high}`;
}

function countWords({ minItems, maxItems }: SchemaNode): string {
  if (minItems !== undefined) {
    if (minItems === maxItems) return ` of ${minItems}`;
    return maxItems === undefined ? ` of ${minItems} or more` : ` of ${minItems} to ${maxItems}`;
  }
  return maxItems === undefined ? '' : ` of up to ${maxItems}`;
}
