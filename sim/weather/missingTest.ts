import { parseNumber } from './parseNumber.ts';

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
