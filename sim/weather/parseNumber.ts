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
