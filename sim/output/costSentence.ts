/**
 * What the parts of a lamp cost together, and whose price is missing, as a sentence.
 *
 * in: cost, in the scenario's currency, undefined without any price; unpriced, names of parts
 * @example costSentence(12.5, ['jar']); // => 'Together 12.50, in the currency of the prices; without a price: jar.'
 */
export function costSentence(cost: number | undefined, unpriced: readonly string[]): string {
  if (cost === undefined) return 'No prices are given.';
  const without = unpriced.length === 0 ? '' : `; without a price: ${unpriced.join('; ')}`;
  return `Together ${cost.toFixed(2)}, in the currency of the prices${without}.`;
}
