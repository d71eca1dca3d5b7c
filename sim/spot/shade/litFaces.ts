import { RADIANS } from '../../common/constants.ts';
import { atan2 } from '../../common/elementary/atan2.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { domeShares } from './domeShares.ts';
import { type Eye, type Obstacle, placeBefore, SPOT } from './Obstacle.ts';
import { obstacleScreens } from './obstacleScreens.ts';
import type { Screen } from './SkyDome.ts';

/** What the side of an obstacle that the spot sees takes itself, by the name of the obstacle. */
export interface LitFace {
  /** Share of an open sky's isotropic light (on the flat ground). */
  sky: number;
  /** What stands between it and the sun. */
  screens: readonly Screen[];
}

/**
 * What lights the obstacles around a spot: each seen from the point of it that is nearest to the spot, at half its
 * height, behind all the others.
 *
 * in: obstacles; inLeaf, for each; far, screens that stand far off, such as a horizon profile
 * out: a face for each obstacle, by name
 * valid: one point stands for the whole face; light reflected between obstacles is left out
 */
export function litFaces(
  obstacles: readonly Obstacle[],
  inLeaf: readonly boolean[],
  far: readonly Screen[],
): Map<string, LitFace> {
  return new Map(
    obstacles.map((obstacle) => {
      const { eye, faces_deg } = facePoint(obstacle);
      const others = obstacles.flatMap((other, k) =>
        other === obstacle ? [] : obstacleScreens(other, eye, inLeaf[k]!),
      );
      const screens = [...others, ...far];
      return [
        obstacle.name,
        { sky: domeShares({ screens }, 90, faces_deg, undefined, BEARINGS).sky, screens },
      ];
    }),
  );
}

const BEARINGS = 120;
/** A point just before the face, so that it does not lie in a neighbour that touches it. */
const BEFORE_M = 0.02;

function facePoint(obstacle: Obstacle): { eye: Eye; faces_deg: number } {
  const bearing = obstacle.bearing_deg * RADIANS;
  if (obstacle.kind === 'tree') {
    const away_m = obstacle.distance_m - obstacle.crown_width_m / 2 - BEFORE_M;
    return {
      eye: {
        east_m: away_m * sin(bearing),
        north_m: away_m * cos(bearing),
        height_m: (obstacle.crown_base_m + obstacle.crown_top_m) / 2,
      },
      faces_deg: (obstacle.bearing_deg + 180) % 360,
    };
  }
  const { along_m, behind_m } = placeBefore(obstacle, SPOT);
  const half_m = obstacle.width_m / 2;
  // s, w: the nearest point of the footprint, along the face from its middle and behind it
  const s = Math.min(Math.max(along_m, -half_m), half_m);
  const w = Math.min(Math.max(behind_m, 0), obstacle.depth_m);
  const faces = obstacle.faces_deg * RADIANS;
  const east_m = obstacle.distance_m * sin(bearing) + s * cos(faces) - w * sin(faces);
  const north_m = obstacle.distance_m * cos(bearing) - s * sin(faces) - w * cos(faces);
  const away_m = hypot(east_m, north_m);
  const before = 1 - Math.min(BEFORE_M / away_m, 1);
  const across_deg =
    behind_m < 0 ? obstacle.faces_deg : behind_m > obstacle.depth_m ? obstacle.faces_deg + 180 : undefined;
  const back_deg = atan2(-east_m, -north_m) / RADIANS;
  return {
    eye: { east_m: east_m * before, north_m: north_m * before, height_m: obstacle.height_m / 2 },
    faces_deg: ((across_deg ?? back_deg) + 360) % 360,
  };
}
