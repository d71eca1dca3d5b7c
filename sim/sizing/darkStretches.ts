import type { SpotLight } from '../spot/spotLight.ts';
import type { NightStretch } from '../year/simulateYear.ts';
import { energyByNight, type LitNights } from './LitNights.ts';

/** Nights of a stretch: a capacitor of a lamp holds some, the more of them follow. */
const STRETCH = 30;
/** Stretches of a winter. */
const OF_A_WINTER = 2;

/**
 * The darkest weeks of each winter by the light on the cell, where a lamp fails if it does at all.
 *
 * in: light, the spot's; nights
 * out: stretches that have no night together, in the order of time
 */
export function darkStretches(light: SpotLight, nights: LitNights): NightStretch[] {
  const light_J_m2 = energyByNight(nights, light.planeOfArray_W_m2);
  // A stretch counts from the first noon of the record.
  const before = light.nights.noon_ms.findIndex((noon_ms) => noon_ms >= light.start_ms) - nights.firstNight;
  const last = lastWhole(light, nights);
  const free = Array.from(nights.winter, (winter, night) => night >= before && night < last && winter >= 0);
  const found: NightStretch[] = [];
  for (let winter = 0; winter < nights.winters; winter++) {
    for (let k = 0; k < OF_A_WINTER; k++) {
      const from = darkest(light_J_m2, (night) => free[night]! && nights.winter[night] === winter);
      if (from === undefined) break;
      free.fill(false, from, from + STRETCH);
      found.push({ first: from - before, end: from + STRETCH - before });
    }
  }
  return found.sort((one, other) => one.first - other.first);
}

/** Nights from a record's first noon on that end within it. */
function lastWhole({ nights: calendar, start_ms, count }: SpotLight, nights: LitNights): number {
  const end_ms = start_ms + count * 3_600_000;
  let last = nights.count;
  while (last > 0 && !(calendar.noon_ms[nights.firstNight + last]! <= end_ms)) last--;
  return last;
}

function darkest(light_J_m2: Float64Array, isFree: (night: number) => boolean): number | undefined {
  let best: number | undefined;
  let least_J_m2 = Number.POSITIVE_INFINITY;
  let sum_J_m2 = 0;
  let running = 0;
  for (let night = 0; night < light_J_m2.length; night++) {
    running = isFree(night) ? running + 1 : 0;
    if (running === 0) sum_J_m2 = 0;
    else sum_J_m2 += light_J_m2[night]! - (running > STRETCH ? light_J_m2[night - STRETCH]! : 0);
    if (running < STRETCH || !(sum_J_m2 < least_J_m2)) continue;
    least_J_m2 = sum_J_m2;
    best = night - STRETCH + 1;
  }
  return best;
}
