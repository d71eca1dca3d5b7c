import type { SunLight } from '../quality/SunLight.ts';
import { stretchesOf } from '../quality/stretchesOf.ts';

/** Most hours of daylight running that are filled by interpolation: longer ones hide whole showers and clearings. */
const LONGEST_SHORT_GAP_H = 3;
/** Least light outside the air that gives a clearness worth carrying on. */
export const LEAST_OUTSIDE_W_M2 = 20;

/**
 * Fills short gaps of global irradiance: in the dark with 0, in up to 3 hours of daylight running with a clearness
 * index that goes straight from the hour before to the hour after; beside the night the one neighbour's is taken.
 *
 * in: ghi_W_m2, NaN missing, is written to; light, over the same hours
 * out: 1 for each hour filled; nothing brighter than the cleanest cloudless sky
 * valid: against hidden hours of a known year, see the tests
 */
export function interpolateClearness(ghi_W_m2: Float64Array, light: SunLight): Uint8Array {
  const filled = new Uint8Array(ghi_W_m2.length);
  const { upShare } = light.sun;
  const { outside_W_m2, cleanest_W_m2 } = light;
  const gaps = stretchesOf(ghi_W_m2.length, (i) => Number.isNaN(ghi_W_m2[i]!) && upShare[i]! > 0);
  const clearnessAt = (i: number): number =>
    (outside_W_m2[i] ?? 0) >= LEAST_OUTSIDE_W_M2 ? ghi_W_m2[i]! / outside_W_m2[i]! : Number.NaN;
  for (const { from, to } of gaps) {
    if (to - from > LONGEST_SHORT_GAP_H) continue;
    const before = clearnessAt(from - 1);
    const after = clearnessAt(to);
    if (Number.isNaN(before) && Number.isNaN(after)) continue;
    for (let i = from; i < to; i++) {
      const part = (i + 1 - from) / (to + 1 - from);
      const clearness = Number.isNaN(before)
        ? after
        : Number.isNaN(after)
          ? before
          : before + part * (after - before);
      ghi_W_m2[i] = Math.min(Math.max(clearness, 0) * outside_W_m2[i]!, cleanest_W_m2[i]!);
      filled[i] = 1;
    }
  }
  for (let i = 0; i < ghi_W_m2.length; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!) || upShare[i]! > 0) continue;
    ghi_W_m2[i] = 0;
    filled[i] = 1;
  }
  return filled;
}
