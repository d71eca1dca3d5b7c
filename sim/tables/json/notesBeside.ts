import { isObject, isScalar, type Json, type JsonObject, type JsonRows, nameOf } from './rowsInJson.ts';

/** What is said beside the rows, at most: lines, and characters of each. */
const MOST_LINES = 80;
const LONGEST = 200;
const UNIT_KEY = /^units?$/i;

/**
 * What JSON says beside its rows. What is said of columns is known by a key, or by the name of the object it stands in,
 * that is a heading or its first part; a unit by its key, there or in every record.
 *
 * in: value; table, its rows; rows, the lists they stand in
 * out: lines, 'where: what', or 'heading = what'; the unit of each column, '' where none is said
 */
export function notesBeside(
  value: Json,
  { headings, columns }: Pick<JsonRows, 'headings' | 'columns'>,
  rows: ReadonlySet<unknown>,
): { lines: string[]; units: string[] } {
  const lines: string[] = [];
  const units = unitsInRecords({ headings, columns });
  const meant = (name: string): string[] =>
    headings.filter((heading) => name !== '' && (heading === name || heading.startsWith(`${name}.`)));
  const note = (each: Json, path: readonly string[], of: readonly string[]): void => {
    if (lines.length >= MOST_LINES || path.length > MOST_LINES || each === null) return;
    if (!isScalar(each)) {
      const entries = entriesOf(each);
      if (rows.has(each) || entries.length > MOST_LINES || isList(each)) return;
      const byName = meant((isObject(each) && nameOf(each)) || '');
      for (const [key, item] of entries) {
        const byKey = byName.length > 0 || Array.isArray(each) ? [] : meant(key);
        note(item, [...path, key], byName.length > 0 ? byName : byKey.length > 0 ? byKey : of);
      }
      return;
    }
    const said = String(each)
      .replace(/[\s;]+/g, ' ')
      .slice(0, LONGEST);
    if (of.length === 0) lines.push(`${path.join('.')}: ${said}`);
    else if (typeof each === 'string')
      for (const heading of of) {
        if (path.some((key) => UNIT_KEY.test(key))) units[headings.indexOf(heading)] = said;
        else if (!heading.startsWith(said)) lines.push(`${heading} = ${said}`);
      }
  };
  note(value, [], []);
  return { lines, units };
}

/** Units that every record repeats beside its value: 'light.value' and 'light.unit'. */
function unitsInRecords({ headings, columns }: Pick<JsonRows, 'headings' | 'columns'>): string[] {
  const parentOf = (heading: string): string => heading.slice(0, Math.max(0, heading.lastIndexOf('.')));
  return headings.map((heading) => {
    const parent = parentOf(heading);
    const unit = headings.findIndex(
      (other) => parentOf(other) === parent && UNIT_KEY.test(other.slice(parent.length + 1)),
    );
    const cells = parent === '' || headings[unit] === heading ? [] : (columns[unit] ?? []);
    const [first] = cells;
    return typeof first === 'string' && cells.every((cell) => cell === first) ? first : '';
  });
}

/** Words and figures in a list, as columns are. */
function isList(value: Json): boolean {
  return Array.isArray(value) && value.length > 0 && value.every(isScalar);
}

/** The entries of a list or an object; a point on the globe gives its angles by name. source: RFC7946, section 3.1.1 */
function entriesOf(value: Json[] | JsonObject): [string, Json][] {
  const at = isObject(value) && value.type === 'Point' ? value.coordinates : undefined;
  if (!Array.isArray(at) || !at.every(isScalar) || at.length < 2) return Object.entries(value);
  const [longitude, latitude, elevation = null] = at;
  return Object.entries({ latitude: latitude!, longitude: longitude!, elevation });
}
