/** What api-extractor leaves of one entry, as far as pages need it. */
export interface ApiModel {
  members: [{ members: ApiItem[] }];
}

interface ApiItem {
  name: string;
  kind: string;
  canonicalReference: string;
  docComment?: string;
  fileUrlPath?: string;
  excerptTokens?: readonly { text: string; canonicalReference?: string }[];
  members?: readonly ApiItem[];
}

/** Parts of the library in the order of the flow, with what stands over their pages. */
const PARTS: Readonly<Record<string, string>> = {
  weather: 'Weather',
  climate: 'Climate',
  sun: 'Sun',
  spot: 'Light in a spot',
  lamp: 'Lamp',
  year: 'Year',
  night: 'Nights',
  statistics: 'Statistics',
  scenario: 'Scenario',
  trial: 'Trials',
  fitting: 'Bench readings',
  ageing: 'Life',
  sizing: 'Sizing',
  output: 'Output',
  tables: 'Tables',
  common: 'Common',
};

/**
 * Pages of the library in Markdown, by file name: README.md lists what is exported, and each part has a page of its own
 * with signatures, comments, and the types that those name.
 *
 * in: whole and core, the models of both entries
 */
export function apiPages(whole: ApiModel, core: ApiModel): Record<string, string> {
  const inCore = exportedNames(core);
  const items = [...whole.members[0].members];
  const known = new Set(items.map(({ canonicalReference }) => nameOf(canonicalReference)));
  items.push(...core.members[0].members.filter((item) => !known.has(nameOf(item.canonicalReference))));
  const shown = items.filter((item) => isExported(item) || item.kind !== 'Variable');
  const homes = new Map(shown.map((item) => [nameOf(item.canonicalReference), partOf(item)]));
  const pages = Object.entries(PARTS).flatMap(([part, title]) => {
    const here = shown.filter((item) => partOf(item) === part);
    if (here.length === 0) return [];
    const [open, inner] = [here.filter(isExported), here.filter((item) => !isExported(item))];
    const text = [
      `# ${title}`,
      `[All of the library](README.md)`,
      ...open.map((item) => section(item, homes, inCore)),
      ...(inner.length === 0 ? [] : ['# Named by these', 'Not exported by name.']),
      ...inner.map((item) => section(item, homes, inCore)),
    ];
    return [[part, title, open, `${text.join('\n\n')}\n`] as const];
  });
  const list = pages
    .filter(([, , open]) => open.length > 0)
    .flatMap(([part, title, open]) => [
      `## [${title}](${part}.md)`,
      open.map((item) => line(item, part, inCore)).join('\n'),
    ]);
  const head =
    "# longnight as a library\n\nWhat `import ... from 'longnight'` gives, in the order of the flow; what bears *core* also comes from `longnight/core`, which needs neither files nor Node.";
  return {
    'README.md': `${[head, ...list].join('\n\n')}\n`,
    ...Object.fromEntries(pages.map(([part, , , text]) => [`${part}.md`, text])),
  };
}

function exportedNames(model: ApiModel): Set<string> {
  return new Set(model.members[0].members.filter(isExported).map(({ name }) => name));
}

/** The extractor marks with ~ what is only named by something exported. */
function isExported({ canonicalReference }: ApiItem): boolean {
  return !canonicalReference.includes('!~');
}

/** Name and kind, the same in both entries and whether exported or not. */
function nameOf(reference: string): string {
  return reference.replace(/^.*!~?/, '');
}

function partOf({ fileUrlPath = '' }: ApiItem): string {
  return /types\/(\w+)\//.exec(fileUrlPath)?.[1] ?? 'common';
}

function line(item: ApiItem, part: string, inCore: ReadonlySet<string>): string {
  const [first = ''] = textOf(item).split(/(?<=\.)\s|\n\n/);
  const marks = inCore.has(item.name) ? ' *core*' : '';
  return `- [\`${item.name}\`](${part}.md#${anchor(item)})${marks}${first === '' ? '' : `: ${first.replaceAll('\n', ' ')}`}`;
}

/** Function and type may differ by one capital alone, so that the kind is part of the heading. */
function anchor(item: ApiItem): string {
  return heading(item).toLowerCase().replaceAll(' ', '-');
}

function heading({ name, kind }: ApiItem): string {
  const words: Record<string, string> = { TypeAlias: 'type', Variable: 'value' };
  return `${name} ${words[kind] ?? kind.toLowerCase()}`;
}

function section(item: ApiItem, homes: ReadonlyMap<string, string>, inCore: ReadonlySet<string>): string {
  const uses = [...new Set(references(item))]
    .filter((reference) => homes.has(reference) && reference !== nameOf(item.canonicalReference))
    .map((reference) => {
      const [name = '', kind = ''] = reference.split(':');
      const to = anchor({ name, kind: kind === 'type' ? 'TypeAlias' : kind, canonicalReference: '' });
      return `[${name}](${homes.get(reference)}.md#${to})`;
    });
  return [
    `## ${heading(item)}`,
    ...(inCore.has(item.name) ? ['Also in `longnight/core`.'] : []),
    textOf(item),
    `\`\`\`ts\n${declaration(item)}\n\`\`\``,
    ...(uses.length === 0 ? [] : [`Names ${uses.join(', ')}.`]),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

function references(item: ApiItem): string[] {
  const own = (item.excerptTokens ?? []).flatMap(({ canonicalReference }) => canonicalReference ?? []);
  return [...own.map(nameOf), ...(item.members ?? []).flatMap(references)];
}

/** The signature; of a type with members each of them below its comment. */
function declaration({ excerptTokens = [], members }: ApiItem): string {
  const own = excerptTokens
    .map(({ text }) => text)
    .join('')
    .trim();
  if (members === undefined) return own;
  const inside = members.flatMap((member) => {
    const said = textOf(member);
    const comment = said === '' ? [] : said.split('\n').map((each) => `  // ${each}`.trimEnd());
    return [...comment, `  ${declaration(member)}`];
  });
  return [`${own} {`, ...inside, '}'].join('\n');
}

/** The comment as paragraphs, what goes in and comes out named in bold. */
function textOf({ docComment = '' }: ApiItem): string {
  return docComment
    .replace(/^\/\*\*|\*\/\s*$/g, '')
    .replace(/^ *\* ?/gm, '')
    .replace(/^@remarks\s*/gm, '')
    .replace(/^@returns\s*/gm, '**Out:** ')
    .replace(/^@throws\s*/gm, '**Throws:** ')
    .replace(/^@example\s*/gm, '**Example:**\n\n')
    .replace(/^(In|NaN when|Valid|Departs|Source): /gm, '**$1:** ')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}
