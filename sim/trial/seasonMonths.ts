/**
 * The calendar months, 1 to 12, with the dark ones in the middle: July to June north of the equator, January to
 * December south of it.
 *
 * in: southern
 * @example seasonMonths(true); // => [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
 */
export function seasonMonths(southern: boolean): number[] {
  return Array.from({ length: 12 }, (_, k) => (southern ? k + 1 : ((k + 6) % 12) + 1));
}
