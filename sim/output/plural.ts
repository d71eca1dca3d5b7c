/**
 * A word in the number that a count asks for.
 *
 * in: count; word, in the singular
 * out: the word, with an s unless the count is 1
 * @example plural(2, 'night'); // => 'nights'
 */
export function plural(count: number, word: string): string {
  return count === 1 ? word : `${word}s`;
}
