import { mean } from 'simple-statistics';
import type { SkyPicture } from '../spot/skyPicture.ts';

/**
 * A picture of the sky with cells of twice the size, for places with little room; the rest of it stays.
 *
 * in: picture, with an even number of cells each way
 * out: the picture, its shares the means of four cells
 */
export function coarserSky(picture: SkyPicture): SkyPicture {
  const { bearing_deg, elevation_deg, inLeaf, bare } = picture.grid;
  const pairs = (values: readonly number[]) =>
    Array.from({ length: values.length / 2 }, (_, k) => mean([values[2 * k]!, values[2 * k + 1]!]));
  const shares = (rows: readonly number[][]) =>
    Array.from({ length: rows.length / 2 }, (_, r) => {
      const [low, high] = [pairs(rows[2 * r]!), pairs(rows[2 * r + 1]!)];
      return low.map((share, c) => mean([share, high[c]!]));
    });
  return {
    ...picture,
    grid: {
      bearing_deg: pairs(bearing_deg),
      elevation_deg: pairs(elevation_deg),
      inLeaf: shares(inLeaf),
      bare: bare === undefined ? undefined : shares(bare),
    },
  };
}
