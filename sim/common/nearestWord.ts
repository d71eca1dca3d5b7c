import { distance } from 'fastest-levenshtein';

/**
 * The word of a list that a mistyped word most likely meant, or undefined where none is near.
 * For suggestions in error messages ("did you mean ...?").
 *
 * in: word, as typed; known, the words that exist
 * out: the nearest known word, if its edit distance is at most 2 or a third of its length
 * @example nearestWord('cel', ['cell', 'capacitor']); // => 'cell'
 */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const changes = distance(word.toLowerCase(), candidate.toLowerCase());
    if (changes < least && changes <= Math.max(2, Math.ceil(candidate.length / 3))) {
      best = candidate;
      least = changes;
    }
  }
  return best;
}
