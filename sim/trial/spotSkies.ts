import { mean } from 'simple-statistics';
import { type SkyPicture, skyPicture } from '../spot/skyPicture.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { RunResult } from './Trial.ts';

/**
 * The sky as seen from the spots of a run that anything stands around, by the spot's name.
 *
 * in: scenario of a run; trials of it, of which the spots count
 * out: pictures; no entry for an unshaded spot, or one whose surroundings are not known
 */
export function spotSkies({
  scenario,
  trials,
}: Pick<RunResult, 'scenario' | 'trials'>): Map<string, SkyPicture> {
  const skies = new Map<string, SkyPicture>();
  for (const { name, params } of scenario.spots) {
    const place = hasSurroundings(params) ? trials.find(({ spot }) => spot === name)?.light.place : undefined;
    const picture = place && skyPicture(place);
    if (picture !== undefined) skies.set(name, picture);
  }
  return skies;
}

/** Whether anything stands around a spot that a picture of its sky would show. */
export function hasSurroundings({ obstacles, horizon }: SpotParams): boolean {
  return obstacles.length > 0 || horizon !== undefined;
}

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
