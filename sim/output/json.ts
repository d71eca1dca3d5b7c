import { visibleJson } from '../common/visibleText.ts';
import type { Json } from '../tables/json/rowsInJson.ts';
import { utcStamp } from './civilStamp.ts';
import type { Program } from './program.ts';

/** Numbers of JSON files are rounded to so many significant digits, so that the last bits of a sum do not show. */
const SIGNIFICANT_DIGITS = 9;

/**
 * The name that files give to a field of the code: its words in small letters, parted by '_', then its unit as it is.
 * An instant in milliseconds is written as UTC.
 *
 * @example publishedName('lightOnCell_Wh_m2'); // => 'light_on_cell_Wh_m2'
 */
export function publishedName(field: string): string {
  const [words = '', ...unit] = field.split('_');
  const name = words.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
  return [name, ...unit].join('_').replace(/_ms$/, '_utc');
}

/**
 * A value as JSON files hold it, by one rule: fields under their published names, numbers rounded, instants as UTC text,
 * null for what does not apply (NaN, undefined).
 *
 * in: value, of the code; digits, significant ones of its numbers
 */
export function published(value: unknown, digits = SIGNIFICANT_DIGITS): Json {
  if (typeof value === 'number') return Number.isFinite(value) ? Number(value.toPrecision(digits)) + 0 : null;
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  if (value === undefined || value === null) return null;
  if (Array.isArray(value)) return value.map((each) => published(each, digits));
  return Object.fromEntries(
    Object.entries(value).map(([field, each]) => [
      publishedName(field),
      field.endsWith('_ms') ? utcStamp(each) : published(each, digits),
    ]),
  );
}

/** A list of numbers as JSON writes it over several lines; no string holds a line break of its own. */
const LONG_LIST = /\[\n\s+((?:-?[\d.e+-]+|null)(?:,\n\s+(?:-?[\d.e+-]+|null))*)\n\s+\]/g;

/**
 * The text of every JSON that a command prints or writes, schema 1, beginning with what made it: two spaces of indent,
 * lists of numbers in one line, everything in it seen, ending in LF.
 *
 * in: program, what made it; content, its other keys in their order
 */
export function jsonText({ version, nodeMajor }: Program, content: object): string {
  const text = plainJson({ schema: 1, longnight: version, node_major: nodeMajor, ...content });
  return text.replace(LONG_LIST, (_, list: string) => `[${list.replace(/\n\s+/g, ' ')}]`);
}

/** A value as the text of a JSON file that is no result, as the JSON Schema: everything in it seen, ending in LF. */
export function plainJson(value: object): string {
  return `${visibleJson(JSON.stringify(value, null, 2))}\n`;
}
