/**
 * Deviation of the hour's clearness index from what is usual for the hour and the day (no unit).
 *
 * in: daily, clearness index of the day, 0 to 0.8
 * out: takes the sine of the sun's altitude, 0 to 1; gives the standard deviation, 0 to about 0.3
 * source: AguiarCollaresPereira1992
 * @example hourRoughness(0.3)(1); // => 0.13317
 */
export function hourRoughness(daily: number): (sineAltitude: number) => number {
  const size = 0.14 * Math.exp(-20 * (daily - 0.35) ** 2);
  const growth = 3 * (daily - 0.45) ** 2 + 16 * daily ** 5;
  return (sineAltitude) => size * Math.exp(growth * (1 - sineAltitude));
}
