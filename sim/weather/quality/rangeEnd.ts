import { max } from 'd3-array';
import { tenths } from '../../common/numeric.ts';
import type { FindingsAbout } from './Finding.ts';
import { resolutionOf } from './filledHours.ts';
import { flagsOf } from './stretchesOf.ts';

/**
 * A sensor or its converter ends where its highest value stands in so many hours, so many times as often as what is
 * near below it: within this share of it, or a step of the file. Common practice, no source.
 */
const RANGE_END = { hours: 12, times: 3, near: 0.02 } as const;

/**
 * Hours in which light stands at exactly its highest value, where they are many: what was brighter is lost.
 *
 * in: ghi_W_m2, as read, NaN missing; clean_W_m2, the same without what cannot be; add, for what is found
 */
export function atRangeEnd(ghi_W_m2: Float64Array, clean_W_m2: Float64Array, add: FindingsAbout): void {
  const top = max(clean_W_m2) ?? 0;
  const near = top - Math.max(RANGE_END.near * top, 1.5 * resolutionOf(ghi_W_m2));
  const there = ghi_W_m2.filter((value) => value === top).length;
  const below = ghi_W_m2.filter((value) => value > near && value < top).length;
  if (!(top > 0) || there < RANGE_END.hours || there < RANGE_END.times * below) return;
  add.together(
    'range-end',
    flagsOf(ghi_W_m2.length, (i) => ghi_W_m2[i] === top),
    'kept',
    `stands at its highest value, ${tenths(top)} W/m2, in ${there} hours: the sensor or its range ends there`,
  );
}
