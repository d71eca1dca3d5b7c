import { fixed } from '../common/csvText.ts';

/** Said wherever numbers of the three stand. */
export const BAND_WORDS =
  'How much longer a capacitor lives where it is cooler and holds less voltage, published factors say differently: low, middle and high are run, none is picked. What the middle one gives comes first, the least and the most of the three in brackets. 1 klm h is a thousand lumen-hours.';

/** What is true under the three factors: of the middle one, and from the least to the most in brackets. */
export interface Band<Value> {
  low: Value;
  middle: Value;
  high: Value;
}

/** Something of each of the three lives of a lamp. in: lives, low, middle, high */
export function bandOf<Life, Value>(lives: readonly Life[], of: (life: Life) => Value): Band<Value> {
  const [low, middle, high] = lives.map(of);
  return { low: low!, middle: middle!, high: high! };
}

/**
 * A band of numbers in words.
 *
 * in: band; write, of one number; unit, after the middle one
 * out: one number where all are written alike
 * @example bandWords({ low: 12, middle: 15, high: 21 }, String); // => '15 (12 to 21)'
 */
export function bandWords(
  { low, middle, high }: Band<number>,
  write: (value: number) => string,
  unit = '',
): string {
  const ends = [Math.min(low, middle, high), Math.max(low, middle, high)].map((end) => write(end));
  const among = ends[0] === ends[1] ? '' : ` (${ends[0]} to ${ends[1]})`;
  return `${write(middle)}${unit === '' ? '' : ` ${unit}`}${among}`;
}

/** Nights of a winter: a whole number, or the mean over several winters of weather. */
export function nightsText(count: number): string {
  return Number.isInteger(count) ? `${count}` : fixed(count, 1);
}
