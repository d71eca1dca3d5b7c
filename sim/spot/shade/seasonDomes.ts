import type { Site } from '../../sun/Site.ts';
import { leafStates } from './leafStates.ts';
import { type LitFace, litFaces } from './litFaces.ts';
import type { Obstacle } from './Obstacle.ts';
import { obstacleScreens } from './obstacleScreens.ts';
import type { Screen, SkyDome } from './SkyDome.ts';
import { screenDome } from './screenDome.ts';

/** The sky over a spot through the year: one dome for each state of the leaves. */
export interface SeasonDomes {
  seasons: { dome: SkyDome; faces: Map<string, LitFace>; inLeaf: readonly boolean[] }[];
  /** Season of each hour. */
  ofHour: Uint8Array;
}

/** What stands around a spot. */
export interface Surroundings {
  obstacles: readonly Obstacle[];
  /** A horizon profile's screen. */
  far: readonly Screen[];
  /** Height of the cell above the ground. */
  cellHeight_m: number;
}

/**
 * The sky over a spot through a stretch of hours, obstacles and horizon together.
 *
 * in: around; start_ms and count, the hours; site
 * out: as many domes as there are states of the leaves
 */
export function seasonDomes(
  around: Surroundings,
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): SeasonDomes {
  const { obstacles, far, cellHeight_m } = around;
  const { states, ofHour } = leafStates(obstacles, start_ms, count, site);
  const eye = { east_m: 0, north_m: 0, height_m: cellHeight_m };
  const seasons = states.map((inLeaf) => ({
    dome: screenDome([
      ...obstacles.flatMap((obstacle, k) => obstacleScreens(obstacle, eye, inLeaf[k]!)),
      ...far,
    ]),
    faces: litFaces(obstacles, inLeaf, far),
    inLeaf,
  }));
  return { seasons, ofHour };
}
