import { RADIANS } from '../../common/constants.ts';
import type { Eye, TreeObstacle } from './Obstacle.ts';
import type { Screen, Span } from './SkyDome.ts';

/**
 * A tree as seen from a point: its crown, an upright ellipsoid, and its trunk, what each hides along every bearing,
 * edges exact. The crown passes the same share of light wherever the ray goes through it.
 *
 * in: tree; eye, outside crown and trunk; transmittance of the crown
 * out: one or two screens
 */
export function treeScreens(tree: TreeObstacle, eye: Eye, transmittance: number): Screen[] {
  const bearing = tree.bearing_deg * RADIANS;
  const east = tree.distance_m * Math.sin(bearing) - eye.east_m;
  const north = tree.distance_m * Math.cos(bearing) - eye.north_m;
  const away_m = Math.hypot(east, north);
  const angle_deg = Math.atan2(east, north) / RADIANS;
  const middle_deg = angle_deg < 0 ? angle_deg + 360 : angle_deg;
  const common = { name: tree.name, middle_deg, reflectance: tree.reflectance };
  const screens: Screen[] = [];

  const radius_m = tree.crownWidth_m / 2;
  const half_m = (tree.crownTop_m - tree.crownBase_m) / 2;
  const centre_m = (tree.crownTop_m + tree.crownBase_m) / 2 - eye.height_m;
  const crown = (bearing_deg: number): Span | undefined => {
    const turn = (bearing_deg - middle_deg) * RADIANS;
    const aside_m = away_m * Math.sin(turn);
    if (Math.abs(aside_m) >= radius_m) return undefined;
    // The section along the bearing is an ellipse; heights are stretched until it is a circle of radius r around (x, y).
    const x = away_m * Math.cos(turn);
    const y = (centre_m * radius_m) / half_m;
    const r = Math.sqrt(radius_m ** 2 - aside_m ** 2);
    const middle = Math.atan2(y, x);
    const spread = Math.asin(Math.min(r / Math.hypot(x, y), 1));
    const from_deg = Math.max(unstretched(middle - spread, half_m / radius_m), 0);
    const to_deg = Math.min(unstretched(middle + spread, half_m / radius_m), 90);
    return to_deg > from_deg ? { from_deg, to_deg, transmittance } : undefined;
  };
  screens.push({
    ...common,
    kind: 'tree',
    distance_m: Math.max(away_m - radius_m, 0),
    span: crown,
  });

  const trunk_m = tree.trunkWidth_m / 2;
  const height_m = tree.crownBase_m - eye.height_m;
  if (trunk_m > 0 && height_m > 0) {
    screens.push({
      ...common,
      kind: 'trunk',
      distance_m: Math.max(away_m - trunk_m, 0),
      span: (bearing_deg) => {
        const turn = (bearing_deg - middle_deg) * RADIANS;
        const aside_m = away_m * Math.sin(turn);
        if (Math.cos(turn) <= 0 || Math.abs(aside_m) >= trunk_m) return undefined;
        const near_m = away_m * Math.cos(turn) - Math.sqrt(trunk_m ** 2 - aside_m ** 2);
        return { from_deg: 0, to_deg: Math.atan2(height_m, near_m) / RADIANS, transmittance: 0 };
      },
    });
  }
  return screens;
}

function unstretched(angle: number, ratio: number): number {
  return Math.atan2(Math.sin(angle) * ratio, Math.cos(angle)) / RADIANS;
}
