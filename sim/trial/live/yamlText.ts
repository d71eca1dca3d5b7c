import type { Json } from '../../scenario/Scenario.ts';

/** What fits on a line is not laid out below. */
const LINE = 100;

/** A letter first, or a way up to another folder; no sign that means something in YAML, and no word that it takes for a value. */
const BARE = /^(?!(?:true|false|null|yes|no|on|off|y|n)$)(?:\.{1,2}\/)*[a-z][\w./-]*(?: [\w./-]+)*$/i;
const BARE_KEY = /^(?!(?:true|false|null)$)[a-z][\w-]*$/i;

/**
 * Plain JSON as YAML to be read and edited, a key a line. Our own, since it has to be small enough for a page.
 *
 * in: map
 * out: text, ending in a line break
 * @example yamlText({ promise: { from: 'dusk', hours: 6 } }); // => 'promise: { from: dusk, hours: 6 }\n'
 */
export function yamlText(map: { readonly [key: string]: Json }): string {
  return mapText(map, '');
}

function mapText(map: { readonly [key: string]: Json }, indent: string): string {
  return Object.entries(map)
    .map(([key, value]) => `${indent}${keyText(key)}:${below(value, indent, key.length)}`)
    .join('');
}

/** A value after its key: beside it, or below. */
function below(value: Json, indent: string, taken: number): string {
  const beside = flow(value);
  if (indent.length + taken + beside.length <= LINE || isPlain(value)) return ` ${beside}\n`;
  const deeper = `${indent}  `;
  if (!isList(value)) return `\n${mapText(value as { readonly [key: string]: Json }, deeper)}`;
  return `\n${value.map((each) => `${deeper}-${item(each, deeper)}`).join('')}`;
}

/** An item of a list after its dash. */
function item(value: Json, indent: string): string {
  const beside = flow(value);
  if (indent.length + beside.length <= LINE || isPlain(value) || isList(value)) return ` ${beside}\n`;
  return ` ${mapText(value as { readonly [key: string]: Json }, `${indent}  `).trimStart()}`;
}

function flow(value: Json): string {
  if (isList(value)) return `[${value.map(flow).join(', ')}]`;
  if (typeof value === 'string') return BARE.test(value) ? value : JSON.stringify(value);
  if (isPlain(value)) return String(value);
  const entries = Object.entries(value as object);
  if (entries.length === 0) return '{}';
  return `{ ${entries.map(([key, each]) => `${keyText(key)}: ${flow(each)}`).join(', ')} }`;
}

function keyText(key: string): string {
  return BARE_KEY.test(key) ? key : JSON.stringify(key);
}

function isPlain(value: Json): boolean {
  return typeof value !== 'object' || value === null;
}

function isList(value: Json): value is readonly Json[] {
  return Array.isArray(value);
}
