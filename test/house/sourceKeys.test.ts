import { expect, it } from 'vitest';
import { CONSTANTS } from '../../sim/common/constants.ts';
import { CITED, LIFE_CITED } from '../../sim/output/page/figureNotes.ts';
import { commentsOf, fileAt, filesBelow } from './simFiles.ts';

const ROWS = [...fileAt('sim/common/SOURCES.md').text.matchAll(/^\| (\w+) \| (.+) \|$/gm)]
  .map(([, key, words]) => ({ key: key!, words: words! }))
  .filter(({ key }) => key !== 'key');

/** Keys of the table of sources, in its order. */
const LISTED = ROWS.map(({ key }) => key);

/** A word that can only be meant as a key: letters and a year or number, or words run together. */
const KEY =
  /\b(?:[A-Z][A-Za-z]+\d{3,}[a-z]?|[A-Z][A-Za-z]*[a-z][A-Z][A-Za-z]*|[A-Z]{2,}[a-z]{2,}[A-Za-z]*)\b/g;

/** Said where a value rests on nothing that was published. */
const UNFOUNDED = /no source|assumption/i;

interface Named {
  kind: string;
  place: string;
  words: string;
  keys: string[];
}

/** Every `source:` and `departs:` of a file's comments, with the words up to the next field or the end. */
function namedIn(path: string, text: string): Named[] {
  return commentsOf(text).flatMap(({ line, text: comment }) => {
    const plain = comment.replace(/^[ \t]*(?:\/\*\*?|\*\/|\*|\/\/)/gm, '').replace(/\*\/\s*$/, '');
    const fields = plain.matchAll(
      /(?<!no )\b(source|departs):([\s\S]*?)(?=^\s*(?:in|out|throws|valid|source|departs|NaN when):|^\s*@|(?![\s\S]))/gm,
    );
    return [...fields].map((match) => {
      // A name in backticks is code.
      const words = match[2]!.replace(/`[^`]*`/g, '').trim();
      return { kind: match[1]!, place: `${path}:${line}`, words, keys: words.match(KEY) ?? [] };
    });
  });
}

const NAMED = [
  ...filesBelow('sim', '.ts').flatMap(({ path, text }) => namedIn(path, text)),
  ...filesBelow('data-samples/make', '.ts').flatMap(({ path, text }) => namedIn(path, text)),
  ...Object.entries(CONSTANTS).map(([name, { source }]) => ({
    kind: 'source',
    place: `constants.${name}`,
    words: source,
    keys: [source],
  })),
];

/** Keys in the pages of the lamp's parts and the others below sim/, where any listed one may stand. */
const PAGES = filesBelow('sim', '.md').filter(({ path }) => path !== 'sim/common/SOURCES.md');

it('the table of sources lists every key once', () => {
  expect(LISTED.length).toBeGreaterThan(20);
  expect(LISTED.filter((key, i) => LISTED.indexOf(key) !== i)).toEqual([]);
});

it('every key of the table has the shape by which keys are found', () => {
  expect(LISTED.filter((key) => (key.match(KEY) ?? [])[0] !== key)).toEqual([]);
});

it('every key that is used is listed', () => {
  expect(NAMED.length).toBeGreaterThan(50);
  const listed = new Set(LISTED);
  const dangling = NAMED.flatMap(({ place, keys }) =>
    keys.filter((key) => !listed.has(key)).map((key) => `${place} ${key}`),
  );
  expect(dangling).toEqual([]);
});

it('every listed key is used', () => {
  const used = new Set(NAMED.flatMap(({ keys }) => keys));
  for (const { text } of PAGES) for (const key of text.match(KEY) ?? []) used.add(key);
  expect(LISTED.filter((key) => !used.has(key))).toEqual([]);
});

it('every line `source:` names a key, or says that there is none', () => {
  const bare = NAMED.filter(
    ({ kind, keys, words }) => kind === 'source' && keys.length === 0 && !UNFOUNDED.test(words),
  );
  expect(bare.map(({ place, words }) => `${place} ${words}`)).toEqual([]);
});

it('the page says "from memory" of what the table has from memory', () => {
  const cited = { ...CITED, ...LIFE_CITED };
  const remembered = ROWS.filter(({ key, words }) => key in cited && /\(from memory\)$/.test(words));
  expect(remembered.length).toBeGreaterThan(2);
  expect(remembered.filter(({ key }) => !cited[key]!.includes('from memory'))).toEqual([]);
});
