import { powerOfTen } from '../common/elementary/power.ts';

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/**
 * The number a cell holds, in the cell's unit. Strict: no words, no hex, no decimal comma, nothing left over.
 *
 * in: text, trimmed
 * out: the number
 * NaN when: the text is no number, or one larger than the machine's
 * @example parseNumber('-1.5e2'); // => -150
 */
export function parseNumber(text: string): number {
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}

const POWERS = Float64Array.from({ length: 23 }, (_, i) => powerOfTen(i));

/**
 * The number a cell holds, its decimal mark being the given one. The same number that the language reads, and as
 * strict as parseNumber, only faster: up to 15 digits are put together as a whole number and divided once, which
 * rounds correctly.
 *
 * in: text, trimmed; comma, whether the decimal mark is a comma; thousands, whether the other mark alone parts
 * thousands ('1,012' is then 1012, which otherwise is no number; '1,012.5', "1'012" and '1 012' always are)
 * out: the number
 * NaN when: the text is no number, or has the other mark
 * @example parseDecimal('-12,5', true); // => -12.5
 * @example parseDecimal('1,012.5', false); // => 1012.5
 */
export function parseDecimal(text: string, comma: boolean, thousands = false): number {
  const length = text.length;
  let at = 0;
  const sign = text.charCodeAt(0);
  if (sign === 45 || sign === 43) at = 1;
  const mark = comma ? 44 : 46;
  let mantissa = 0;
  let digits = 0;
  let decimals = -1;
  for (; at < length; at++) {
    const code = text.charCodeAt(at);
    const digit = code - 48;
    if (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digits++;
      if (decimals >= 0) decimals++;
    } else if (code === mark && decimals < 0) decimals = 0;
    else return slowly(text, comma, thousands);
  }
  if (digits === 0) return Number.NaN;
  if (digits > 15) return slowly(text, comma, thousands);
  const value = decimals > 0 ? mantissa / POWERS[decimals]! : mantissa;
  return sign === 45 ? -value : value;
}

/** Thousands parted by commas, points, blanks or apostrophes, as a source of patterns. */
const groups = (mark: string, least = 1): string => `(?:[${mark}]\\d{3}){${least},}`;
const GROUPED = [
  new RegExp(
    `^[+-]?[1-9]\\d{0,2}(?:${groups(',')}\\.\\d+|${groups(',', 2)}|${groups(" '\u2019\u00a0\u202f")}(?:\\.\\d+)?)$`,
  ),
  new RegExp(
    `^[+-]?[1-9]\\d{0,2}(?:${groups('.')},\\d+|${groups('.', 2)}|${groups(" '\u2019\u00a0\u202f")}(?:,\\d+)?)$`,
  ),
] as const;
const ONE_GROUP = [/^[+-]?[1-9]\d{0,2},\d{3}$/, /^[+-]?[1-9]\d{0,2}\.\d{3}$/] as const;

function slowly(text: string, comma: boolean, thousands: boolean): number {
  const mark = comma ? 1 : 0;
  const grouped = GROUPED[mark].test(text) || (thousands && ONE_GROUP[mark].test(text));
  const bare = grouped ? text.replaceAll(comma ? /[^\d,+-]/g : /[^\d.+-]/g, '') : text;
  if (!comma) return parseNumber(bare);
  return bare.includes('.') ? Number.NaN : parseNumber(bare.replace(',', '.'));
}

/**
 * A test whether a cell holds one of the codes that say 'missing', compared as trimmed text and as numbers
 * (a code "-999" also stands for "-999.0").
 *
 * in: codes, as the scenario lists them ("" for an empty cell)
 * out: the test, for a trimmed text and its number (NaN where it is none)
 */
export function missingTest(codes: readonly string[]): (text: string, value: number) => boolean {
  const texts = new Set(codes.map((code) => code.trim()));
  const numbers = new Set([...texts].map(parseNumber).filter((value) => !Number.isNaN(value)));
  return (text, value) => texts.has(text) || numbers.has(value);
}

/**
 * A cell of a file as a message shows it: in quotes, cut when long.
 *
 * in: text, trimmed
 * out: text
 * @example quotedCell(''); // => 'an empty cell'
 */
export function quotedCell(text: string): string {
  if (text === '') return 'an empty cell';
  return text.length > 40 ? `"${text.slice(0, 40)}..."` : `"${text}"`;
}
