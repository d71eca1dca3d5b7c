import { RADIANS } from '../../common/constants.ts';
import { asin, atan2 } from '../../common/elementary/atan2.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { square } from '../../common/numeric.ts';
import { type BoxObstacle, type Eye, type Obstacle, placeBefore, type TreeObstacle } from './Obstacle.ts';
import type { Screen, Span } from './SkyDome.ts';

/**
 * What an obstacle hides as seen from a point: along each bearing one stretch of elevation, edges exact.
 *
 * in: obstacle; eye, outside of it; inLeaf, whether leaves are on
 * out: its screens, of a tree crown and trunk; none where it stays below the eye
 * valid: the ground flat between obstacle and eye; a ridge roof counts by its skyline, eaves as a flat slab; a crown
 *   is an upright ellipsoid that passes the same share of light wherever the ray goes through it
 */
export function obstacleScreens(obstacle: Obstacle, eye: Eye, inLeaf: boolean): Screen[] {
  const { transmittance, bareTransmittance } = obstacle.leaves;
  const pass = inLeaf ? transmittance : bareTransmittance;
  return obstacle.kind === 'tree' ? treeScreens(obstacle, eye, pass) : boxScreens(obstacle, eye, pass);
}

function boxScreens(box: BoxObstacle, eye: Eye, transmittance: number): Screen[] {
  if (Math.max(box.height_m, box.ridge_height_m ?? 0) <= eye.height_m) return [];
  const { along_m, behind_m } = placeBefore(box, eye);
  const eaves_m = box.height_m - eye.height_m;
  const span = (bearing_deg: number): Span | undefined => {
    const turn = (bearing_deg - box.faces_deg - 180) * RADIANS;
    const ray: Ray = { along_m, behind_m, u: -sin(turn), v: cos(turn) };
    const walls = crossing(ray, box.width_m / 2, 0, box.depth_m);
    let from_deg = 0;
    let to_deg = walls === undefined ? 0 : skyline(box, eaves_m, ray, walls);
    if (box.eaves_m > 0 && eaves_m > 0) {
      const out_m = box.eaves_m;
      const slab = crossing(ray, box.width_m / 2 + out_m, -out_m, box.depth_m + out_m);
      if (slab !== undefined) {
        if (walls === undefined) from_deg = elevation(eaves_m, slab.far_m);
        to_deg = Math.max(to_deg, elevation(eaves_m, slab.near_m));
      }
    }
    if (to_deg <= from_deg) return undefined;
    const aside_deg = walls?.side ? (ray.u > 0 ? -90 : 90) : walls !== undefined && ray.v < 0 ? 180 : 0;
    return { from_deg, to_deg, transmittance, faces_deg: box.faces_deg + aside_deg };
  };
  const distance_m = hypot(
    Math.max(Math.abs(along_m) - box.width_m / 2, 0),
    Math.max(-behind_m, behind_m - box.depth_m, 0),
  );
  return [{ name: box.name, kind: box.kind, distance_m, reflectance: box.reflectance, span }];
}

/** A horizontal ray: where it starts before a box, and how far a step goes along its face (u) and into it (v). */
interface Ray {
  along_m: number;
  behind_m: number;
  u: number;
  v: number;
}

/** Distances at which a ray enters and leaves a rectangle; side: it enters across one of the short sides. */
interface Crossing {
  near_m: number;
  far_m: number;
  side: boolean;
}

function crossing(ray: Ray, half_m: number, front_m: number, back_m: number): Crossing | undefined {
  const { along_m, behind_m, u, v } = ray;
  let near_m = 0;
  let far_m = Number.POSITIVE_INFINITY;
  let side = false;
  if (Math.abs(v) > 1e-12) {
    const a = (front_m - behind_m) / v;
    const b = (back_m - behind_m) / v;
    near_m = Math.max(near_m, Math.min(a, b));
    far_m = Math.min(far_m, Math.max(a, b));
  } else if (behind_m < front_m || behind_m > back_m) return undefined;
  if (Math.abs(u) > 1e-12) {
    const a = (-half_m - along_m) / u;
    const b = (half_m - along_m) / u;
    side = Math.min(a, b) > near_m;
    near_m = Math.max(near_m, Math.min(a, b));
    far_m = Math.min(far_m, Math.max(a, b));
  } else if (Math.abs(along_m) > half_m) return undefined;
  return near_m <= far_m && far_m > 0 ? { near_m, far_m, side } : undefined;
}

/** Elevation of the top of a box along a ray that crosses it: of its near edge, its far edge or its ridge. */
function skyline(
  box: BoxObstacle,
  eaves_m: number,
  { behind_m, v }: Ray,
  { near_m, far_m }: Crossing,
): number {
  const roof_m = (depth_m: number): number => {
    if (box.ridge_height_m === undefined || box.depth_m === 0) return eaves_m;
    return eaves_m + (box.ridge_height_m - box.height_m) * (1 - Math.abs((2 * depth_m) / box.depth_m - 1));
  };
  const ridge_m = (box.depth_m / 2 - behind_m) / v;
  return Math.max(
    elevation(roof_m(behind_m + near_m * v), near_m),
    elevation(roof_m(behind_m + far_m * v), far_m),
    ridge_m > near_m && ridge_m < far_m ? elevation(roof_m(box.depth_m / 2), ridge_m) : 0,
  );
}

function treeScreens(tree: TreeObstacle, eye: Eye, transmittance: number): Screen[] {
  const bearing = tree.bearing_deg * RADIANS;
  const east = tree.distance_m * sin(bearing) - eye.east_m;
  const north = tree.distance_m * cos(bearing) - eye.north_m;
  const away_m = hypot(east, north);
  const angle_deg = atan2(east, north) / RADIANS;
  const middle_deg = angle_deg < 0 ? angle_deg + 360 : angle_deg;
  const crown = crownSpan(tree, eye, transmittance);
  const trunk_m = tree.trunk_width_m / 2;
  const height_m = tree.crown_base_m - eye.height_m;
  /** A part of the tree, round as seen from above; along and aside: where its middle lies from a ray. */
  const round = (
    kind: string,
    radius_m: number,
    span: (along_m: number, aside_m: number) => Span | undefined,
  ): Screen => ({
    name: tree.name,
    kind,
    distance_m: Math.max(away_m - radius_m, 0),
    reflectance: tree.reflectance,
    span: (bearing_deg) => {
      const turn = (bearing_deg - middle_deg) * RADIANS;
      const aside_m = away_m * sin(turn);
      return Math.abs(aside_m) >= radius_m ? undefined : span(away_m * cos(turn), aside_m);
    },
  });
  const trunk = (along_m: number, aside_m: number): Span | undefined => {
    if (along_m <= 0) return undefined;
    const near_m = along_m - Math.sqrt(square(trunk_m) - square(aside_m));
    return { from_deg: 0, to_deg: elevation(height_m, near_m), transmittance: 0 };
  };
  const screens = [round('tree', tree.crown_width_m / 2, crown)];
  if (trunk_m > 0 && height_m > 0) screens.push(round('trunk', trunk_m, trunk));
  return screens;
}

/** What a crown hides along a ray. */
function crownSpan(tree: TreeObstacle, eye: Eye, transmittance: number) {
  const radius_m = tree.crown_width_m / 2;
  const half_m = (tree.crown_top_m - tree.crown_base_m) / 2;
  const centre_m = (tree.crown_top_m + tree.crown_base_m) / 2 - eye.height_m;
  return (x: number, aside_m: number): Span | undefined => {
    // The section along the ray is an ellipse; heights are stretched until it is a circle of radius r around (x, y).
    const y = (centre_m * radius_m) / half_m;
    const r = Math.sqrt(square(radius_m) - square(aside_m));
    const middle = atan2(y, x);
    const spread = asin(Math.min(r / hypot(x, y), 1));
    const unstretched_deg = (angle: number) => elevation(sin(angle) * (half_m / radius_m), cos(angle));
    const from_deg = Math.max(unstretched_deg(middle - spread), 0);
    const to_deg = Math.min(unstretched_deg(middle + spread), 90);
    return to_deg > from_deg ? { from_deg, to_deg, transmittance } : undefined;
  };
}

function elevation(height_m: number, distance_m: number): number {
  return atan2(height_m, distance_m) / RADIANS;
}
