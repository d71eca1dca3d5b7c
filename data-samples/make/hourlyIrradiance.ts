import type { RandomStream } from '../../sim/common/random.ts';
import { hourRoughness } from './hourRoughness.ts';
import type { SunHours } from './sunHours.ts';

const HOURS = 24;

/**
 * Correlation of the roughness of successive hours, and factor on its size, as drawn. Scaling a day back to its sum
 * takes away what its hours have in common; what is left has the published size and the published correlation 0.54
 * (Graham1990), which a test measures.
 */
const DRAWN = { persistence: 0.8, size: 1.4 };

/** The dullest hour of a day, as a share of its usual clearness. An assumption: the thickest cloud is grey, not black. */
const DULLEST_SHARE = 0.15;

/** Rounds in which the light that a clear sky would not let through is handed to the other hours of the day. */
const ROUNDS = 40;

/**
 * Hourly global irradiance on the horizontal (W/m2, mean over the hour) from the clearness of each day: the average
 * shape of the day, roughened by clouds, never above the bound of its hour, 0 with the sun down.
 *
 * in: sun, what the sun allows; clearness, one index a day; random, a stream
 * out: one value an hour; a day's sum is its clearness times its extraterrestrial sum, unless the bounds forbid it
 * source: CollaresPereiraRabl1979 for the shape, AguiarCollaresPereira1992 for the size of the roughness, Graham1990
 *   for its persistence
 * departs: the roughness is normal and cut off at 0.15 of the usual clearness and at the bound, and each day is
 *   scaled back to its sum; the papers map a beta or a cut-off normal distribution
 */
export function hourlyIrradiance(sun: SunHours, clearness: Float64Array, random: RandomStream): Float64Array {
  const ghi_W_m2 = new Float64Array(clearness.length * HOURS);
  clearness.forEach((daily, day) => {
    const start = day * HOURS;
    let before = random.normal();
    for (let hour = start; hour < start + HOURS; hour++) {
      before = DRAWN.persistence * before + Math.sqrt(1 - DRAWN.persistence ** 2) * random.normal();
      const usual = daily * sun.shape[hour]!;
      const rough = usual + DRAWN.size * hourRoughness(daily, sun.sineAltitude[hour]!) * before;
      ghi_W_m2[hour] = Math.max(rough, DULLEST_SHARE * usual) * sun.extraterrestrial_W_m2[hour]!;
    }
    fitDay(ghi_W_m2, sun.bound_W_m2, daily * sun.dailyExtraterrestrial_Wh_m2[day]!, start);
  });
  return ghi_W_m2;
}

/** Scales a day to its sum; what exceeds the bound of an hour is spread over the hours that have room. */
function fitDay(ghi_W_m2: Float64Array, bound_W_m2: Float64Array, sum_Wh_m2: number, start: number): void {
  let total = 0;
  for (let hour = start; hour < start + HOURS; hour++) total += ghi_W_m2[hour]!;
  if (total === 0) return;
  for (let hour = start; hour < start + HOURS; hour++) ghi_W_m2[hour] = (ghi_W_m2[hour]! * sum_Wh_m2) / total;
  for (let round = 0; round < ROUNDS; round++) {
    let bounded = 0;
    let free = 0;
    for (let hour = start; hour < start + HOURS; hour++) {
      if (ghi_W_m2[hour]! >= bound_W_m2[hour]!) bounded += bound_W_m2[hour]!;
      else free += ghi_W_m2[hour]!;
    }
    const scale = free > 0 ? Math.max(sum_Wh_m2 - bounded, 0) / free : 1;
    for (let hour = start; hour < start + HOURS; hour++) {
      const scaled = ghi_W_m2[hour]! >= bound_W_m2[hour]! ? bound_W_m2[hour]! : ghi_W_m2[hour]! * scale;
      ghi_W_m2[hour] = Math.min(scaled, bound_W_m2[hour]!);
    }
  }
}
