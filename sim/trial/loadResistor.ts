import { log, log10 } from '../common/elementary/log.ts';
import { powerOfTen } from '../common/elementary/power.ts';
import { square } from '../common/numeric.ts';

/** A resistor to draw a known current with, and what it has to stand as it begins. */
export interface LoadResistor {
  ohm: number;
  begins_A: number;
  begins_W: number;
  /** Of a common size, at least twice what it begins with. */
  rated_W: number;
}

/** The series of preferred values with 12 steps a decade. */
const E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2, 10] as const;
/** Sizes that resistors come in: common practice, no source. */
const SIZES_W = [0.25, 0.5, 1, 2, 5, 10, 25, 50, 100] as const;

/**
 * The resistor of the common series nearest to a wanted one, and the size that stands a voltage across it.
 *
 * in: wanted_ohm, above 0; across_V
 * @example loadResistor(7, 2).ohm; // => 6.8
 */
export function loadResistor(wanted_ohm: number, across_V: number): LoadResistor {
  const decade = powerOfTen(Math.floor(log10(wanted_ohm)));
  const off = (step: number) => Math.abs(log(wanted_ohm / (step * decade)));
  const near = E12.reduce((best, step) => (off(step) < off(best) ? step : best));
  const ohm = Number((near * decade).toPrecision(2));
  const begins_W = square(across_V) / ohm;
  const rated_W = SIZES_W.find((size) => size >= 2 * begins_W) ?? Math.ceil(begins_W / 50) * 100;
  return { ohm, begins_A: across_V / ohm, begins_W, rated_W };
}

/**
 * A resistance in words.
 * @example ohmWords(1800); // => '1.8 kohm'
 */
export function ohmWords(ohm: number): string {
  return ohm >= 1000 ? `${ohm / 1000} kohm` : `${ohm} ohm`;
}
