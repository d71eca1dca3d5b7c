import { compensatedSum } from '../common/numeric.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { SpotLight } from '../spot/spotLight.ts';

/**
 * Share of the light in the open that a spot keeps on the duller half of the days (UTC) of December and January (June
 * and July south of the equator). On such days nearly all light is the sky's, and they decide which nights fail.
 *
 * in: light of the spot; openLight under the same weather; southern
 * out: 0 or more; a wall that returns light can lift it above 1
 * NaN when: the record has no such day with light
 */
export function dullDayShare(light: SpotLight, openLight: SpotLight, southern: boolean): number {
  const months = southern ? [6, 7] : [12, 1];
  const days = new Map<number, { cell: number; open: number }>();
  for (let i = 0; i < light.count; i++) {
    const start_ms = light.start_ms + i * HOUR_MS;
    if (!months.includes(new Date(start_ms).getUTCMonth() + 1)) continue;
    const day = Math.floor(start_ms / DAY_MS);
    const sums = days.get(day) ?? { cell: 0, open: 0 };
    sums.cell += light.planeOfArray_W_m2[i]!;
    sums.open += openLight.planeOfArray_W_m2[i]!;
    days.set(day, sums);
  }
  const dull = [...days.values()].sort((a, b) => a.open - b.open).slice(0, Math.ceil(days.size / 2));
  return compensatedSum(dull.map((day) => day.cell)) / compensatedSum(dull.map((day) => day.open));
}
