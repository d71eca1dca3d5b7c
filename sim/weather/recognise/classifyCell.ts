import { stampRange } from '../../tables/stampRanges.ts';
import { ZONE_LETTERS } from '../../tables/stampStyles.ts';

export type CellKind = 'empty' | 'number' | 'date' | 'clock' | 'stamp' | 'word';

/** Texts that say 'missing'; numbers that do are found by what they would mean. */
const MISSING =
  /^(?:|-{1,4}|\.{1,2}|\*{1,4}|\/{1,3}|x|\?|-?nan|nan\.|#?n\/?a|<na>|none|null|nil|nd|n\.d\.|miss|missing|mis|m|void|-?inf|bez dat|brak|s\/d)$/i;
const NUMBER =
  /^[+-]?(?:(?:\d+(?:\.\d*|,\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?|[1-9]\d{0,2}(?:(?:,\d{3})+(?:\.\d+)?|(?:\.\d{3})+(?:,\d+)?|(?:[ '\u2019\u00a0\u202f]\d{3})+(?:[.,]\d+)?))$/;
const DATE =
  /^(?:\d{1,4}[-./] ?\d{1,2}[-./] ?\d{2,4}\.?|\d{4}[-./] ?\d{1,2}[-./] ?\d{1,2}\.?|\d{1,2}(?:[-./ ]|\. )[A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{4}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{1,2}|\d{1,2}[-/] ?\d{1,2})$/;
const ZONE = `(?:Z|UTC|UT|GMT|${ZONE_LETTERS})`;
const CLOCK = new RegExp(
  String.raw`^(?:\d{1,2}:\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?(?: ?[AaPp]\.?(?:[Mm]\.?)?)?(?:\s*${ZONE}|[+-]\d{2}:?\d{2})?|\d{1,2} ?(?:h|[Uu]hr))$`,
);
const STAMP = new RegExp(
  String.raw`^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,4}\. ?\d{1,2}\. ?\d{1,4}\.?|\d{1,2}(?:[-./ ]|\. )[A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{2,4}|\d{4}[-./ ][A-Za-z\u00c0-\u017f]{3,10}\.?[-./ ]\d{1,2}|\d{8}|\d{1,2}[-/] ?\d{1,2}|\d{8}(?=\d\d:))(?:[T_ :-]|(?<=^\d{8})(?=\d\d:)|, ?| +)\d{1,2}(?:(?:[:.]?\d{2}){0,2}(?:[.,]\d+)?)(?: ?(?:h|[Uu]hr))?(?: ?[AaPp]\.?(?:[Mm]\.?)?)?\s*${ZONE}?(?:[+-]\d{1,2}(?::?\d{2})?)?(?:\/.+)?$`,
);

const MONTH_FIRST = /^[A-Za-z\u00c0-\u017f]{3,10}\.? \d{1,2},? \d{4}\b/;
/** The name of a day of the week before a date. */
const WEEKDAY = /^[A-Za-z\u00c0-\u017f]{2,10}[.,]{0,2} (?=\d{1,4}[-./ ])/;

/**
 * What kind of thing a trimmed cell holds. A text that says 'missing' counts as empty.
 *
 * in: text, trimmed
 * out: the kind
 * @example classifyCell('2021-12-05T13:00Z'); // => 'stamp'
 */
export function classifyCell(text: string): CellKind {
  if (NUMBER.test(text)) return 'number';
  if (saysMissing(text)) return 'empty';
  if (MONTH_FIRST.test(text)) return /\d{4}$/.test(text) ? 'date' : 'stamp';
  const named = WEEKDAY.exec(text);
  if (named !== null) return classifyCell(text.slice(named[0].length));
  if (CLOCK.test(text)) return 'clock';
  if (DATE.test(text)) return 'date';
  if (STAMP.test(text)) return 'stamp';
  const range = stampRange(text);
  if (!range?.told) return 'word';
  const start = classifyCell(range.from);
  return start === 'number' ? 'clock' : start;
}

/** Whether a trimmed cell says that there is no value. */
export function saysMissing(text: string): boolean {
  return MISSING.test(text);
}
