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

const NUMBER = /^[+-]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][+-]?\d+)?$/;
const DATE = /^(?:\d{1,4}[-./] ?\d{1,2}[-./] ?\d{2,4}\.?|\d{4}[-./] ?\d{1,2}[-./] ?\d{1,2}|\d{1,2}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{1,2}[-/] ?\d{1,2})$/;
const CLOCK = /^\d{1,2}:\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?(?: ?[AaPp]\.?[Mm]\.?)?(?:\s*(?:Z|UTC|UT|GMT))?$/;
const STAMP =
  /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,2}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{8}|\d{1,2}\/ ?\d{1,2})(?:[T_ :-]|, ?| +)\d{1,2}(?:(?:[:.]?\d{2}){0,2}(?:[.,]\d+)?)(?: ?[AaPp]\.?[Mm]\.?)?\s*(?:Z|UTC|UT|GMT)?(?:[+-]\d{1,2}(?::?\d{2})?)?(?:\/.+)?$/;

/**
 * What kind of thing a trimmed cell holds. A text that says 'missing' counts as empty.
 *
 * in: text, trimmed
 * out: the kind
 * @example classifyCell('2021-12-05T13:00Z'); // => 'stamp'
 */
export function classifyCell(text: string): CellKind {
  if (MISSING_WORDS.has(text.toLowerCase())) return 'empty';
  if (NUMBER.test(text)) return 'number';
  if (CLOCK.test(text)) return 'clock';
  if (DATE.test(text)) return 'date';
  if (STAMP.test(text)) return 'stamp';
  return 'word';
}
