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

/**
 * The factor of 1000 by which a value seems to be off, a pure number: 1000 where it is a thousand times too large, 0.001 where it is
 * a thousand times too small, undefined where it is neither. For readings whose unit was mixed up.
 *
 * in: value and usual, what it should be near, both above 0
 * @example unitSlip(0.5, 480); // => 0.001
 */
export function unitSlip(value: number, usual: number): 1000 | 0.001 | undefined {
  const ratio = value / usual;
  if (ratio > 150 && ratio < 7000) return 1000;
  if (ratio < 1 / 150 && ratio > 1 / 7000) return 0.001;
  return undefined;
}
