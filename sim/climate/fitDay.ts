/** Rounds in which the light that a bound holds back is handed to the other hours of the day. */
const ROUNDS = 40;
/** Change of a round from which on there is nothing left to hand over. */
const SETTLED = 1e-9;

/**
 * Scales the hours of a day to its sum; what exceeds the bound of an hour is spread over the hours that have room.
 *
 * in: ghi_W_m2, hours of a day, changed in place; bound_W_m2, as many; sum_Wh_m2
 */
export function fitDay(ghi_W_m2: Float64Array, bound_W_m2: Float64Array, sum_Wh_m2: number): void {
  let total = 0;
  for (let hour = 0; hour < ghi_W_m2.length; hour++) total += ghi_W_m2[hour]!;
  if (total === 0) return;
  for (let hour = 0; hour < ghi_W_m2.length; hour++) ghi_W_m2[hour] = (ghi_W_m2[hour]! * sum_Wh_m2) / total;
  for (let round = 0; round < ROUNDS; round++) {
    let bounded = 0;
    let free = 0;
    for (let hour = 0; hour < ghi_W_m2.length; hour++) {
      if (ghi_W_m2[hour]! >= bound_W_m2[hour]!) bounded += bound_W_m2[hour]!;
      else free += ghi_W_m2[hour]!;
    }
    const scale = free > 0 ? Math.max(sum_Wh_m2 - bounded, 0) / free : 1;
    for (let hour = 0; hour < ghi_W_m2.length; hour++) {
      const scaled = ghi_W_m2[hour]! >= bound_W_m2[hour]! ? bound_W_m2[hour]! : ghi_W_m2[hour]! * scale;
      ghi_W_m2[hour] = Math.min(scaled, bound_W_m2[hour]!);
    }
    if (Math.abs(scale - 1) < SETTLED) return;
  }
}
