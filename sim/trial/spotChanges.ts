import { USUAL_SNOW } from '../spot/cover/snowLying.ts';
import type { SpotSection } from '../spot/schema.ts';
import type { ObstacleSection } from '../spot/shade/schema.ts';
import type { Site } from '../sun/Site.ts';
import type { SingleChange, Stated, TrialSetting } from './singleChanges.ts';

const STEEP_deg = 60;

/**
 * The single changes to where a lamp stands: lid, place, tilt, and what stands in the light.
 *
 * in: stated, the trial as the scenario states it; setting it stands in
 */
export function spotChanges(stated: Stated, { site, elsewhere, snowOnLid }: TrialSetting): SingleChange[] {
  const { spot } = stated;
  const moved = elsewhere.map(({ name, section }) => ({
    ...changed(section, `moved to ${name}`, 'the same lamp in that spot'),
    tentative: true,
  }));
  const brushed = snowOnLid ? [brushedLid(spot)] : [];
  return [
    ...cleanerLid(spot),
    ...brushed,
    ...moved,
    ...trimmedObstacles(spot),
    ...tiltedCell(spot, site),
  ].map(({ spot: section, ...change }) => ({ ...change, cost: 0, stated: { ...stated, spot: section } }));
}

function changed(spot: SpotSection, change: string, detail: string) {
  return { change, detail, spot };
}

type SpotChange = ReturnType<typeof changed>;

function cleanerLid(spot: SpotSection): SpotChange[] {
  const { cover } = spot;
  if (!('dirt_loss' in cover) || cover.dirt_loss === 0) return [];
  const percent = Math.round(cover.dirt_loss * 100);
  return [
    changed(
      { ...spot, cover: { ...cover, dirt_loss: 0 } },
      'a clean lid',
      `dirt takes 0 instead of ${percent} percent of the light`,
    ),
  ];
}

function brushedLid(spot: SpotSection): SpotChange {
  return changed(
    { ...spot, snow: { ...(spot.snow ?? USUAL_SNOW), on_lid: false } },
    'the lid brushed',
    'snow swept off as it falls, instead of left until it melts',
  );
}

/** The cell tilted towards the low winter sun. */
function tiltedCell(spot: SpotSection, site: Site): SpotChange[] {
  if (spot.light_on_cell !== undefined || spot.cell_tilt_deg >= STEEP_deg - 15) return [];
  const [side, cell_bearing_deg] =
    site.latitude_deg < 0 ? (['north', 0] as const) : (['south', 180] as const);
  return [
    changed(
      { ...spot, cell_tilt_deg: STEEP_deg, cell_bearing_deg },
      `tilt the cell ${STEEP_deg} degrees to the ${side}`,
      `${STEEP_deg} instead of ${spot.cell_tilt_deg} degrees from flat`,
    ),
  ];
}

/** Every hedge, fence and tree cut by a third of its height, one after the other; nobody lowers a wall. */
function trimmedObstacles(spot: SpotSection): SpotChange[] {
  return Object.entries(spot.obstacles ?? {}).flatMap(([name, obstacle]) => {
    const lower = trimmed(obstacle);
    if (lower === undefined) return [];
    const obstacles = { ...spot.obstacles, [name]: lower.obstacle };
    return [changed({ ...spot, obstacles }, `${name} ${lower.how}`, lower.detail)];
  });
}

function trimmed(obstacle: ObstacleSection) {
  if (obstacle.kind === 'tree') {
    const { crown_base_m, crown_top_m } = obstacle;
    const top_m = third(crown_top_m);
    const detail = `its top at ${top_m} m instead of ${crown_top_m} m`;
    return top_m > crown_base_m
      ? { how: 'pruned', detail, obstacle: { ...obstacle, crown_top_m: top_m } }
      : undefined;
  }
  if (obstacle.kind !== 'hedge' && obstacle.kind !== 'fence') return undefined;
  const height_m = third(obstacle.height_m);
  const how = obstacle.kind === 'hedge' ? 'trimmed' : 'lowered';
  return {
    how,
    detail: `${height_m} m high instead of ${obstacle.height_m} m`,
    obstacle: { ...obstacle, height_m },
  };
}

/** A third less, to a decimetre. */
function third(height_m: number): number {
  return Math.round(height_m * (2 / 3) * 10) / 10;
}
