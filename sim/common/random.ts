import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { log } from './elementary/log.ts';
import { cos } from './elementary/sin.ts';

/** A stream of random numbers for one purpose. */
export interface RandomStream {
  /** Next number, uniform over [0, 1). */
  uniform(): number;
  /** Next number, normal with mean 0 and standard deviation 1. */
  normal(): number;
}

/**
 * A stream of random numbers, the same for the same seed, purpose and index on every machine.
 * One stream per purpose, so that adding a draw to one never shifts another.
 *
 * in: seed, whole number; purpose, any words; index, whole number (0 by default)
 * out: the stream
 * source: BoxMuller1958 for the normal numbers
 */
export function randomStream(seed: number, purpose: string, index = 0): RandomStream {
  const generator = xoroshiro128plus(hash(`${seed}/${purpose}/${index}`));
  const uniform = () => uniformFloat64(generator);
  return {
    uniform,
    normal: () => Math.sqrt(-2 * log(1 - uniform())) * cos(2 * Math.PI * uniform()),
  };
}

/** FNV-1a, 32 bits: spreads near seeds apart. */
function hash(text: string): number {
  let state = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    state = Math.imul(state ^ text.charCodeAt(i), 0x01000193);
  }
  return state | 0;
}
