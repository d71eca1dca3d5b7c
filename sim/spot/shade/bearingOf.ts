/** The points of the compass, every 22.5 degrees clockwise from north. */
export const COMPASS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
] as const;

export type CompassPoint = (typeof COMPASS)[number];

/**
 * A bearing in degrees clockwise from north, from a number or a point of the compass.
 *
 * in: bearing, 0 to 360 or 'N', 'NNE', ...
 * out: degrees
 * @example bearingOf('NNE'); // => 22.5
 */
export function bearingOf(bearing: number | CompassPoint): number {
  return typeof bearing === 'number' ? bearing : COMPASS.indexOf(bearing) * 22.5;
}
