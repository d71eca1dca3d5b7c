import { log10 } from './elementary/log.ts';

/** Two digits each of the values that a decade of E24 is parted into; the coarser series take every second, fourth and eighth. */
const E24 = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
] as const;

/** Every how many of E24 a series takes. */
const TAKES = { E3: 8, E6: 4, E12: 2, E24: 1 } as const;

export type PreferredSeries = keyof typeof TAKES;

/**
 * The preferred numbers of a series within a range, rising, ends included; in the unit of the range.
 *
 * in: series; from and to, above 0
 * source: IEC60063
 * @example preferredNumbers('E6', 100, 470); // => [100, 150, 220, 330, 470]
 */
export function preferredNumbers(series: PreferredSeries, from: number, to: number): number[] {
  const decades = { first: Math.floor(log10(from)), last: Math.floor(log10(to)) };
  const numbers: number[] = [];
  for (let decade = decades.first; decade <= decades.last; decade++) {
    for (let k = 0; k < E24.length; k += TAKES[series]) {
      const value = Number(`${E24[k]}e${decade - 1}`);
      if (value >= from && value <= to) numbers.push(value);
    }
  }
  return numbers;
}
