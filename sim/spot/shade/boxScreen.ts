import { RADIANS } from '../../common/constants.ts';
import type { BoxObstacle, Eye } from './Obstacle.ts';
import type { Screen, Span } from './SkyDome.ts';

/**
 * A box (wall, house, hedge, fence) as seen from a point: what it hides along each bearing, edges exact.
 *
 * in: box; eye, outside its footprint; transmittance of what it hides
 * out: the screen; undefined where it stays below the eye
 * valid: the ground level between box and eye; a ridge roof counts by its skyline, eaves as a flat slab
 */
export function boxScreen(box: BoxObstacle, eye: Eye, transmittance: number): Screen | undefined {
  const place = placeBefore(box, eye);
  const top_m = Math.max(box.height_m, box.ridgeHeight_m ?? 0) - eye.height_m;
  if (top_m <= 0) return undefined;
  const eaves_m = box.height_m - eye.height_m;
  const { along_m, behind_m } = place;
  const half_m = box.width_m / 2;
  const roof = (depth_m: number): number => {
    if (box.ridgeHeight_m === undefined || box.depth_m === 0) return eaves_m;
    return eaves_m + (box.ridgeHeight_m - box.height_m) * (1 - Math.abs((2 * depth_m) / box.depth_m - 1));
  };
  const span = (bearing_deg: number): Span | undefined => {
    // u, v: how far a step along the bearing goes along the face and into the box
    const turn = (bearing_deg - box.faces_deg - 180) * RADIANS;
    const u = -Math.sin(turn);
    const v = Math.cos(turn);
    const walls = crossing(along_m, behind_m, u, v, half_m, 0, box.depth_m);
    let from_deg = 0;
    let to_deg = 0;
    let faces_deg = box.faces_deg;
    if (walls !== undefined) {
      to_deg = Math.max(
        elevation(roof(behind_m + walls.near_m * v), walls.near_m),
        elevation(roof(behind_m + walls.far_m * v), walls.far_m),
      );
      const toRidge_m = (box.depth_m / 2 - behind_m) / v;
      if (toRidge_m > walls.near_m && toRidge_m < walls.far_m) {
        to_deg = Math.max(to_deg, elevation(roof(box.depth_m / 2), toRidge_m));
      }
      if (walls.side) faces_deg = box.faces_deg + (u > 0 ? -90 : 90);
      else if (v < 0) faces_deg = box.faces_deg + 180;
    }
    if (box.eaves_m > 0 && eaves_m > 0) {
      const out_m = box.eaves_m;
      const slab = crossing(along_m, behind_m, u, v, half_m + out_m, -out_m, box.depth_m + out_m);
      if (slab !== undefined) {
        if (walls === undefined) from_deg = elevation(eaves_m, slab.far_m);
        to_deg = Math.max(to_deg, elevation(eaves_m, slab.near_m));
      }
    }
    return to_deg > from_deg ? { from_deg, to_deg, transmittance, faces_deg } : undefined;
  };
  const away_m = Math.hypot(
    Math.max(Math.abs(along_m) - half_m, 0),
    Math.max(-behind_m, behind_m - box.depth_m, 0),
  );
  const { bearing_deg } = place;
  return {
    name: box.name,
    kind: box.kind,
    distance_m: away_m,
    middle_deg: bearing_deg,
    reflectance: box.reflectance,
    span,
  };
}

/**
 * Where a point lies before the long face of a box, in metres: along it from its middle, and behind it (negative
 * before it); beside it the bearing of that middle.
 */
export function placeBefore(
  box: BoxObstacle,
  eye: Eye,
): { along_m: number; behind_m: number; bearing_deg: number } {
  const bearing = box.bearing_deg * RADIANS;
  const faces = box.faces_deg * RADIANS;
  // east, north: from the eye to the middle of the face
  const east = box.distance_m * Math.sin(bearing) - eye.east_m;
  const north = box.distance_m * Math.cos(bearing) - eye.north_m;
  const back_deg = Math.atan2(east, north) / RADIANS;
  return {
    along_m: -(east * Math.cos(faces) - north * Math.sin(faces)),
    behind_m: east * Math.sin(faces) + north * Math.cos(faces),
    bearing_deg: back_deg < 0 ? back_deg + 360 : back_deg,
  };
}

function elevation(height_m: number, distance_m: number): number {
  return Math.atan2(height_m, distance_m) / RADIANS;
}

/** Distances at which a level ray enters and leaves a rectangle; side: it enters across one of the short sides. */
function crossing(
  along_m: number,
  behind_m: number,
  u: number,
  v: number,
  half_m: number,
  front_m: number,
  back_m: number,
): { near_m: number; far_m: number; side: boolean } | undefined {
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
    const near = Math.min(a, b);
    if (near > near_m) {
      near_m = near;
      side = true;
    }
    far_m = Math.min(far_m, Math.max(a, b));
  } else if (Math.abs(along_m) > half_m) return undefined;
  return near_m <= far_m && far_m > 0 ? { near_m, far_m, side } : undefined;
}
