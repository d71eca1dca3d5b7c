import { RADIANS } from '../../common/constants.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { type Report, unlessReported } from '../../common/InputProblem.ts';
import { bearingOf } from './bearing.ts';
import type { ObstacleSection } from './schema.ts';

/** Something upright that stands in the garden. Lengths in metres, heights above the ground, bearings from north. */
export type Obstacle = BoxObstacle | TreeObstacle;

export interface ObstacleBase {
  name: string;
  bearing_deg: number;
  distance_m: number;
  /** Share of light it reflects; undefined: the site's albedo. */
  reflectance?: number | undefined;
  leaves: Leaves;
}

/** How much light passes with and without leaves, and the days they come and go (month and day, 'MM-DD'). */
export interface Leaves {
  transmittance: number;
  bareTransmittance: number;
  /** Undefined: the usual dates of the hemisphere; without effect where both transmittances are the same. */
  on: string | undefined;
  off: string | undefined;
}

/** Wall, house, hedge or fence: a box whose long face stands `distance_m` away at its middle. */
export interface BoxObstacle extends ObstacleBase {
  kind: 'wall' | 'house' | 'hedge' | 'fence';
  /** Bearing that face looks at. */
  faces_deg: number;
  width_m: number;
  height_m: number;
  /** From that face to the one behind it. */
  depth_m: number;
  /** Top of a roof whose ridge runs along the face, above the middle of the depth; undefined: a flat top. */
  ridge_height_m?: number | undefined;
  /** How far the roof reaches out over the walls, at `height_m`. */
  eaves_m: number;
}

/** A tree: a trunk, and a crown with the shape of an upright ellipsoid. */
export type TreeObstacle = ObstacleBase & Omit<Extract<ObstacleSection, { kind: 'tree' }>, 'bearing_deg'>;

/** A point in the garden: metres east and north of the spot, and above the ground. */
export interface Eye {
  east_m: number;
  north_m: number;
  height_m: number;
}

/** The spot itself, on the ground. */
export const SPOT: Eye = { east_m: 0, north_m: 0, height_m: 0 };

/** Where a point lies before the long face of a box, in metres: along it from its middle, and behind it (negative before it). */
export function placeBefore(box: BoxObstacle, eye: Eye): { along_m: number; behind_m: number } {
  const bearing = box.bearing_deg * RADIANS;
  const faces = box.faces_deg * RADIANS;
  // east, north: from the eye to the middle of the face
  const east = box.distance_m * sin(bearing) - eye.east_m;
  const north = box.distance_m * cos(bearing) - eye.north_m;
  return {
    along_m: -(east * cos(faces) - north * sin(faces)),
    behind_m: east * sin(faces) + north * cos(faces),
  };
}

/**
 * An obstacle from its entry in the scenario, checked for whether it can stand so.
 *
 * in: name; section; cellHeight_m above the ground; report, with the key path below the obstacle
 * out: the obstacle, or undefined after a problem
 */
export function obstacleOf(
  name: string,
  section: ObstacleSection,
  cellHeight_m: number,
  report: Report,
): Obstacle | undefined {
  return unlessReported(report, (note) => {
    const obstacle = madeOf(name, section, leavesOf(section, note));
    if (obstacle.kind === 'tree') checkTree(obstacle, cellHeight_m, note);
    else checkBox(obstacle, note);
    return obstacle;
  });
}

function madeOf(name: string, section: ObstacleSection, leaves: Leaves): Obstacle {
  const bearing_deg = bearingOf(section.bearing_deg);
  const common = { name, bearing_deg, leaves };
  if (section.kind === 'tree') return { ...section, ...common };
  const faces_deg = bearingOf(section.faces_deg ?? (bearing_deg + 180) % 360);
  return { depth_m: 0, eaves_m: 0, ...section, ...common, faces_deg };
}

function leavesOf(section: ObstacleSection, report: Report): Leaves {
  const days: { leaf_on?: string | undefined; leaf_off?: string | undefined } =
    section.kind === 'tree' || section.kind === 'hedge' ? section : {};
  for (const key of ['leaf_on', 'leaf_off'] as const) {
    const value = days[key];
    if (value === undefined || isDay(value)) continue;
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: [key],
      got: `"${value}"`,
      expected: 'a day of the year as month-day, 01-01 to 12-31',
      fix: 'write the month first, as 04-25 for 25 April',
    });
  }
  if (days.leaf_on !== undefined && days.leaf_on === days.leaf_off) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['leaf_off'],
      got: `leaf_on and leaf_off both ${days.leaf_on}`,
      expected: 'two days',
      fix: 'of an evergreen give transmittance and bare_transmittance the same value, and no dates',
    });
  }
  const transmittance =
    section.kind === 'fence' ? section.openness : 'transmittance' in section ? section.transmittance : 0;
  const bareTransmittance =
    ('bare_transmittance' in section ? section.bare_transmittance : undefined) ?? transmittance;
  return { transmittance, bareTransmittance, on: days.leaf_on, off: days.leaf_off };
}

const MONTH_DAYS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function isDay(text: string): boolean {
  const [month, day] = text.split('-').map(Number) as [number, number];
  return month >= 1 && month <= 12 && day >= 1 && day <= MONTH_DAYS[month - 1]!;
}

function checkTree(tree: TreeObstacle, cellHeight_m: number, report: Report): void {
  if (tree.crown_top_m <= tree.crown_base_m) {
    report({
      code: 'SPOT_GEOMETRY',
      path: ['crown_top_m'],
      got: `a crown from ${tree.crown_base_m} m up to ${tree.crown_top_m} m`,
      expected: 'a top above the crown base',
      fix: 'give both as heights above the ground',
    });
    return;
  }
  const half_m = (tree.crown_top_m - tree.crown_base_m) / 2;
  const up = (cellHeight_m - (tree.crown_top_m + tree.crown_base_m) / 2) / half_m;
  const out = tree.distance_m / (tree.crown_width_m / 2);
  if (up * up + out * out <= 1) report(holdsInside('its crown', 'distance_m', tree.distance_m));
  else if (tree.distance_m <= tree.trunk_width_m / 2 && cellHeight_m < tree.crown_base_m) {
    report(holdsInside('its trunk', 'distance_m', tree.distance_m));
  }
}

function checkBox(box: BoxObstacle, report: Report): void {
  if (box.ridge_height_m !== undefined && box.ridge_height_m < box.height_m) {
    report({
      code: 'SPOT_GEOMETRY',
      path: ['ridge_height_m'],
      got: `a ridge at ${box.ridge_height_m} m over eaves at ${box.height_m} m`,
      expected: 'a ridge no lower than the eaves',
      fix: 'give both as heights above the ground',
    });
  }
  const { along_m, behind_m } = placeBefore(box, SPOT);
  if (behind_m >= 0 && behind_m <= box.depth_m && Math.abs(along_m) <= box.width_m / 2) {
    report(holdsInside(`the ${box.kind}`, 'faces_deg', box.faces_deg));
  }
}

function holdsInside(what: string, key: string, value: number) {
  return {
    code: 'SPOT_GEOMETRY' as const,
    path: [key],
    got: `${key} ${value}, which puts the spot inside ${what}`,
    expected: 'a spot outside of everything that stands around it',
    fix:
      key === 'faces_deg'
        ? 'give the bearing its near side looks at, towards the spot, or leave faces_deg out'
        : 'measure the distance from the spot again, and the size',
  };
}
