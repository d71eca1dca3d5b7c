/**
 * Light a tilted plane takes from the ground before it, in W/m2.
 *
 * in: ground_W_m2, irradiance of the flat ground; albedo, 0 to 1; tilt_deg, 0 flat to 90 upright
 * out: W/m2
 * source: LiuJordan1963
 * @example groundReflected(500, 0.2, 90); // => 50
 */
export function groundReflected(ground_W_m2: number, albedo: number, tilt_deg: number): number {
  return (ground_W_m2 * albedo * (1 - Math.cos((tilt_deg * Math.PI) / 180))) / 2;
}
