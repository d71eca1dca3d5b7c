import type { ObstacleSection } from '../../sim/spot/shade/schema.ts';

/**
 * An independent reading of what stands in the way: a ray is walked in small steps from the cell, and each point is
 * asked whether it lies inside anything. Knows nothing of skylines; slow on purpose.
 */
type Solid = (east_m: number, north_m: number, up_m: number) => boolean;

const turn = (degrees: number) => (degrees * Math.PI) / 180;

/** A box with or without a ridge; bearings as numbers only. */
export function boxSolid(box: Extract<ObstacleSection, { kind: 'house' }>): Solid {
  const bearing = turn(box.bearing_deg as number);
  const faces = turn((box.faces_deg as number | undefined) ?? (box.bearing_deg as number) + 180);
  const middle = [box.distance_m * Math.sin(bearing), box.distance_m * Math.cos(bearing)] as const;
  return (east, north, up) => {
    if (up < 0) return false;
    const [x, y] = [east - middle[0], north - middle[1]];
    const into = -(x * Math.sin(faces) + y * Math.cos(faces));
    const along = x * Math.cos(faces) - y * Math.sin(faces);
    if (into < 0 || into > box.depth_m || Math.abs(along) > box.width_m / 2) return false;
    const ridge = box.ridge_height_m ?? box.height_m;
    const toRidge = 1 - Math.abs(into - box.depth_m / 2) / (box.depth_m / 2);
    return up < box.height_m + (ridge - box.height_m) * toRidge;
  };
}

/** The roof's overhang as a board of 1 cm. */
export function eavesSolid(box: Extract<ObstacleSection, { kind: 'house' }>): Solid {
  const board = boxSolid({
    ...box,
    ridge_height_m: undefined,
    width_m: box.width_m + 2 * box.eaves_m,
    depth_m: box.depth_m + 2 * box.eaves_m,
    distance_m: box.distance_m - box.eaves_m,
    height_m: box.height_m + 0.005,
  });
  return (east, north, up) => up > box.height_m - 0.005 && board(east, north, up);
}

export function crownSolid(tree: Extract<ObstacleSection, { kind: 'tree' }>): Solid {
  const bearing = turn(tree.bearing_deg as number);
  const middle = [tree.distance_m * Math.sin(bearing), tree.distance_m * Math.cos(bearing)] as const;
  const height = (tree.crown_top_m + tree.crown_base_m) / 2;
  return (east, north, up) =>
    (Math.hypot(east - middle[0], north - middle[1]) / (tree.crown_width_m / 2)) ** 2 +
      ((up - height) / ((tree.crown_top_m - tree.crown_base_m) / 2)) ** 2 <
    1;
}

export function trunkSolid(tree: Extract<ObstacleSection, { kind: 'tree' }>): Solid {
  const bearing = turn(tree.bearing_deg as number);
  const middle = [tree.distance_m * Math.sin(bearing), tree.distance_m * Math.cos(bearing)] as const;
  return (east, north, up) =>
    up >= 0 &&
    up < tree.crown_base_m &&
    Math.hypot(east - middle[0], north - middle[1]) < tree.trunk_width_m / 2;
}

/** Whether a ray from the cell meets a solid within a distance. */
export function meets(
  solids: readonly Solid[],
  bearing_deg: number,
  elevation_deg: number,
  cellHeight_m = 0,
  farthest_m = 40,
  step_m = 0.01,
): boolean {
  const flat = Math.cos(turn(elevation_deg));
  const [east, north] = [flat * Math.sin(turn(bearing_deg)), flat * Math.cos(turn(bearing_deg))];
  const up = Math.sin(turn(elevation_deg));
  for (let way = 0; way < farthest_m; way += step_m) {
    for (const solid of solids) if (solid(east * way, north * way, cellHeight_m + up * way)) return true;
  }
  return false;
}
