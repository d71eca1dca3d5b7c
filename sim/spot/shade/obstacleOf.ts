import type { Report } from '../../common/InputProblem.ts';
import { bearingOf } from './bearingOf.ts';
import { placeBefore } from './boxScreen.ts';
import type { BoxObstacle, Leaves, Obstacle, TreeObstacle } from './Obstacle.ts';
import type { ObstacleSection } from './schema.ts';

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
  let complete = true;
  const note: Report = (problem) => {
    complete = false;
    report(problem);
  };
  const leaves = leavesOf(section, note);
  const obstacle = section.kind === 'tree' ? treeOf(name, section, leaves) : boxOf(name, section, leaves);
  if (obstacle.kind === 'tree') checkTree(obstacle, cellHeight_m, note);
  else checkBox(obstacle, note);
  return complete ? obstacle : undefined;
}

type TreeSection = Extract<ObstacleSection, { kind: 'tree' }>;

function treeOf(name: string, section: TreeSection, leaves: Leaves): TreeObstacle {
  return {
    name,
    kind: 'tree',
    bearing_deg: bearingOf(section.bearing_deg),
    distance_m: section.distance_m,
    reflectance: section.reflectance,
    leaves,
    trunkWidth_m: section.trunk_width_m,
    crownBase_m: section.crown_base_m,
    crownTop_m: section.crown_top_m,
    crownWidth_m: section.crown_width_m,
  };
}

function boxOf(name: string, section: Exclude<ObstacleSection, TreeSection>, leaves: Leaves): BoxObstacle {
  const bearing_deg = bearingOf(section.bearing_deg);
  return {
    name,
    kind: section.kind,
    bearing_deg,
    distance_m: section.distance_m,
    reflectance: section.reflectance,
    leaves,
    faces_deg: section.faces_deg === undefined ? (bearing_deg + 180) % 360 : bearingOf(section.faces_deg),
    width_m: section.width_m,
    height_m: section.height_m,
    depth_m: 'depth_m' in section ? section.depth_m : 0,
    ridgeHeight_m: section.kind === 'house' ? section.ridge_height_m : undefined,
    eaves_m: 'eaves_m' in section ? section.eaves_m : 0,
  };
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
  if (tree.crownTop_m <= tree.crownBase_m) {
    report({
      code: 'SPOT_GEOMETRY',
      path: ['crown_top_m'],
      got: `a crown from ${tree.crownBase_m} m up to ${tree.crownTop_m} m`,
      expected: 'a top above the crown base',
      fix: 'give both as heights above the ground',
    });
    return;
  }
  const half_m = (tree.crownTop_m - tree.crownBase_m) / 2;
  const up = (cellHeight_m - (tree.crownTop_m + tree.crownBase_m) / 2) / half_m;
  const out = tree.distance_m / (tree.crownWidth_m / 2);
  if (up * up + out * out <= 1) report(holdsInside('its crown', 'distance_m', tree.distance_m));
  else if (tree.distance_m <= tree.trunkWidth_m / 2 && cellHeight_m < tree.crownBase_m) {
    report(holdsInside('its trunk', 'distance_m', tree.distance_m));
  }
}

function checkBox(box: BoxObstacle, report: Report): void {
  if (box.ridgeHeight_m !== undefined && box.ridgeHeight_m < box.height_m) {
    report({
      code: 'SPOT_GEOMETRY',
      path: ['ridge_height_m'],
      got: `a ridge at ${box.ridgeHeight_m} m over eaves at ${box.height_m} m`,
      expected: 'a ridge no lower than the eaves',
      fix: 'give both as heights above the ground',
    });
  }
  const { along_m, behind_m } = placeBefore(box, { east_m: 0, north_m: 0, height_m: 0 });
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
