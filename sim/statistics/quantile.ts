/**
 * Quantile of a sample, in the unit of its values: straight lines between the ordered values, the first at 0 and the
 * last at 1 (type 7).
 *
 * in: values, at least one, in any order; share, 0 to 1
 * out: the quantile
 * source: HyndmanFan1996, definition 7
 * @example quantile([15, 20, 35, 40, 50], 0.4); // => 29
 */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = (sorted.length - 1) * share;
  const low = Math.floor(place);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low]! + (sorted[high]! - sorted[low]!) * (place - low);
}
