import type { QuantityName } from '../recognise/DetectedFormat.ts';

/** What a quantity is on any ordinary day, canonical units; a code of nines outside it says 'missing'. source: WMOExtremes, narrowed */
const ORDINARY: Readonly<Record<QuantityName, readonly [least: number, most: number]>> = {
  ghi: [-25, 1750],
  dni: [-25, 1500],
  bhi: [-25, 1500],
  dhi: [-25, 1200],
  air_temperature: [-85, 58],
  snow_depth: [-0.02, 9],
  rain: [-0.0002, 0.35],
  wind: [-0.5, 65],
};

const KNOWN = new Set([
  -32768, 32767, -32767, 65535, -6999, -7999, -8999, 6999, 7999, -6666, -5555, -111, -1111,
]);

/**
 * Whether a number says 'missing': it is written as codes are (all nines, eights or sevens; bounds of the
 * machine's numbers; a million and more) and no ordinary value of its quantity.
 *
 * in: value, as it stands in the file; canonical, the same in the canonical unit; quantity
 * out: true for a code
 */
export function missingCode(value: number, canonical: number, quantity: QuantityName): boolean {
  const [least, most] = ORDINARY[quantity];
  if (canonical >= least && canonical <= most) return false;
  return hasCodeShape(value);
}

/** A number written as codes are; whether it is one depends on what it would mean. */
export function hasCodeShape(value: number): boolean {
  const size = Math.abs(value);
  if (size >= 1e6) return true;
  return KNOWN.has(value) || /^(9{2,}(\.9+)?|9\.9+|7{3,}(\.7+)?|8{3,}(\.8+)?|9{3,}\d)$/.test(String(size));
}
