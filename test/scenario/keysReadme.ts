import { keyGuide } from '../../sim/scenario/keyGuide.ts';
import { mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';

interface Key {
  path: readonly string[];
  node: SchemaNode;
}

/** Markdown for the README of the scenarios: every key by its section, what an editor tells of it. */
export function keysReadme(): string {
  const sections = new Map<string, Map<string, Key[]>>();
  for (const key of keysBelow(mergedSchema(), [])) {
    const steps = key.path.filter((step) => step !== '*' && step !== '[]');
    // What may be chosen mirrors the keys of a lamp.
    if (steps[0] === 'choices' && steps.length > 1) continue;
    const deep = steps[0] === 'lamps' || steps[0] === 'spots' ? 2 : 1;
    const section = steps.length <= deep ? steps.slice(0, deep - 1) : steps.slice(0, deep);
    const name = section.join('.');
    const keys = sections.get(name) ?? new Map<string, Key[]>();
    const own = steps.slice(section.length).join('.');
    sections.set(name, keys.set(own, [...(keys.get(own) ?? []), key]));
  }
  return [...sections]
    .flatMap(([name, keys]) => [
      name === '' ? 'At the top:' : `\`${name}\`${NAMED[name.split('.')[0]!] ?? ''}:`,
      '',
      '| key | what it is | unit | usual | to know it | where not given |',
      '|---|---|---|---|---|---|',
      ...[...keys].map(([name, forms]) => row(name, forms)),
      '',
    ])
    .join('\n');
}

const NAMED: Readonly<Record<string, string>> = {
  spots: ' (each spot under a name of its own)',
  lamps: ' (each lamp under a name of its own)',
};

/** Every key that bears a title, and of those without one what lies below. */
function keysBelow(node: SchemaNode, path: readonly string[]): Key[] {
  const { properties = {}, additionalProperties: others, items, anyOf = [], oneOf = [] } = node;
  return [
    ...Object.entries(properties).flatMap(([key, below]) => [
      ...(below.title === undefined ? [] : [{ path: [...path, key], node: below }]),
      ...keysBelow(below, [...path, key]),
    ]),
    ...(typeof others === 'object' ? keysBelow(others, [...path, '*']) : []),
    ...(items === undefined ? [] : keysBelow(items, [...path, '[]'])),
    ...[...anyOf, ...oneOf].flatMap((form) => keysBelow(form, path)),
  ];
}

/** What a key is: of one with a form for each of its words, all of these; with the words of a list it may be. */
function meaning(forms: readonly Key[]): string {
  const title = forms[0]!.node.title!;
  const own = forms.filter(({ node }) => node.const !== undefined && node.title !== title);
  if (own.length > 0) return forms.map(({ node }) => `\`${node.const}\`: ${node.title}`).join('; ');
  const words = new Set(forms.flatMap(({ node }) => wordsOf(node)));
  return words.size === 0 ? title : `${title} (${[...words].map((word) => `\`${word}\``).join(', ')})`;
}

function wordsOf({ const: only, enum: listed = [], anyOf = [] }: SchemaNode): unknown[] {
  return [...(only === undefined ? [] : [only]), ...listed, ...anyOf.flatMap(wordsOf)];
}

function row(name: string, forms: readonly Key[]): string {
  const { path, node } = forms[0]!;
  const { typical = '', read = '' } = keyGuide(path) ?? {};
  const { unit = '', assumption, default: value } = node;
  const stated = ['string', 'number'].includes(typeof value);
  const standIn = [...(stated ? [`${value}`] : []), ...(assumption === undefined ? [] : [assumption])].join(
    ': ',
  );
  const cells = [`\`${name}\``, meaning(forms), unit === '1' ? '' : unit, typical, read, standIn];
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}
