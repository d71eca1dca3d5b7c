export type CellKind = 'empty' | 'number' | 'date' | 'clock' | 'stamp' | 'word';

/** Texts that say 'missing', compared in lower case; numbers that do are found by what they would mean. */
export const MISSING_WORDS: ReadonlySet<string> = new Set([
  '',
  '-',
  '--',
  '---',
  '----',
  '.',
  '..',
  '*',
  '**',
  '***',
  '****',
  'x',
  '/',
  '//',
  '///',
  '?',
  'nan',
  '-nan',
  'nan.',
  'na',
  'n/a',
  '#n/a',
  '#na',
  '<na>',
  'none',
  'null',
  'nil',
  'nd',
  'n.d.',
  'missing',
  'miss',
  'm',
  'mis',
  'void',
  'inf',
  '-inf',
  'bez dat',
  'brak',
  's/d',
]);

const NUMBER =
  /^[+-]?(?:(?:\d+(?:\.\d*|,\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?|[1-9]\d{0,2}(?:(?:,\d{3})+(?:\.\d+)?|(?:\.\d{3})+(?:,\d+)?|(?:[ '\u2019\u00a0\u202f]\d{3})+(?:[.,]\d+)?))$/;
const DATE =
  /^(?:\d{1,4}[-./] ?\d{1,2}[-./] ?\d{2,4}\.?|\d{4}[-./] ?\d{1,2}[-./] ?\d{1,2}\.?|\d{1,2}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{1,2}[-/] ?\d{1,2})$/;
const CLOCK =
  /^\d{1,2}:\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?(?: ?[AaPp]\.?(?:[Mm]\.?)?)?(?:\s*(?:Z|UTC|UT|GMT)|[+-]\d{2}:?\d{2})?$/;
const STAMP =
  /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,4}\. ?\d{1,2}\. ?\d{1,4}\.?|\d{1,2}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{8}|\d{1,2}\/ ?\d{1,2}|\d{8}(?=\d\d:))(?:[T_ :-]|(?<=^\d{8})(?=\d\d:)|, ?| +)\d{1,2}(?:(?:[:.]?\d{2}){0,2}(?:[.,]\d+)?)(?: ?[AaPp]\.?(?:[Mm]\.?)?)?\s*(?:Z|UTC|UT|GMT)?(?:[+-]\d{1,2}(?::?\d{2})?)?(?:\/.+)?$/;

const MONTH_FIRST = /^[A-Za-z\u00c0-\u017f]{3,10}\.? \d{1,2},? \d{4}\b/;
/** The name of a day of the week before a date. */
const WEEKDAY = /^[A-Za-z\u00c0-\u017f]{2,10}[.,]{0,2} (?=\d{1,4}[-./])/;

/**
 * What kind of thing a trimmed cell holds. A text that says 'missing' counts as empty.
 *
 * in: text, trimmed
 * out: the kind
 * @example classifyCell('2021-12-05T13:00Z'); // => 'stamp'
 */
export function classifyCell(text: string): CellKind {
  if (isPlainNumber(text)) return 'number';
  if (MISSING_WORDS.has(text.toLowerCase())) return 'empty';
  if (NUMBER.test(text)) return 'number';
  if (MONTH_FIRST.test(text)) return 'stamp';
  const named = WEEKDAY.exec(text);
  if (named !== null) return classifyCell(text.slice(named[0].length));
  if (CLOCK.test(text)) return 'clock';
  if (DATE.test(text)) return 'date';
  if (STAMP.test(text)) return 'stamp';
  return 'word';
}

/** Digits with at most one point and a sign: most cells, told without a pattern. */
function isPlainNumber(text: string): boolean {
  const length = text.length;
  let at = text.charCodeAt(0) === 45 ? 1 : 0;
  let digits = 0;
  let points = 0;
  for (; at < length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 48 && code <= 57) digits++;
    else if (code === 46 && points === 0 && digits > 0) points = 1;
    else return false;
  }
  return digits > 0;
}
