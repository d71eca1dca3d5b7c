/** The points of the compass, every 22.5 degrees clockwise from north. */
// biome-ignore format: a round of the compass
export const COMPASS = [
  'N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE', 'S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW',
] as const;

/**
 * A bearing in degrees clockwise from north, from a number or a point of the compass.
 *
 * in: from, 0 to 360 or 'N', 'NNE', ...
 * out: degrees
 * @example bearingOf('NNE'); // => 22.5
 */
export function bearingOf(from: number | (typeof COMPASS)[number]): number {
  return typeof from === 'number' ? from : COMPASS.indexOf(from) * 22.5;
}
