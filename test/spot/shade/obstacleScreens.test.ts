import { describe, expect, it } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import { type Eye, type Obstacle, obstacleOf } from '../../../sim/spot/shade/Obstacle.ts';
import { obstacleScreens } from '../../../sim/spot/shade/obstacleScreens.ts';
import { passThrough, screenDome } from '../../../sim/spot/shade/SkyDome.ts';
import { type ObstacleSection, obstacleSchema } from '../../../sim/spot/shade/schema.ts';
import { solarPosition } from '../../../sim/sun/solarPosition.ts';
import { sunColumns } from '../../../sim/sun/sunColumns.ts';
import { beamUnder } from '../beamUnder.ts';
import { GARDEN } from '../inventedHours.ts';
import { boxSolid, crownSolid, eavesSolid, meets, trunkSolid } from '../rays.ts';

type House = Extract<ObstacleSection, { kind: 'house' }>;
type Tree = Extract<ObstacleSection, { kind: 'tree' }>;

const CELL_M = 0.15;
const EYE: Eye = { east_m: 0, north_m: 0, height_m: CELL_M };

const section = (value: unknown) => obstacleSchema.parse(value);
const obstacle = (value: unknown): Obstacle =>
  obstacleOf('it', section(value), CELL_M, (problem) => {
    throw new Error(problem.got);
  })!;

/** Directions near an edge, which a ray walked in steps of a centimetre cannot tell: all around it must agree. */
function compare(value: unknown, solids: Parameters<typeof meets>[0]): { shut: number; open: number } {
  const screens = obstacleScreens(obstacle(value), EYE, true);
  const random = randomStream(7, 'rays');
  const seen = { shut: 0, open: 0 };
  for (let n = 0; n < 1500; n++) {
    const bearing_deg = 360 * random.uniform();
    const elevation_deg = 89.5 * random.uniform();
    const around = [
      [0, 0],
      [0.4, 0],
      [-0.4, 0],
      [0, 0.4],
      [0, -0.4],
    ].map(([b, e]) => passThrough(screens, (bearing_deg + b! + 360) % 360, Math.max(elevation_deg + e!, 0)));
    if (new Set(around).size > 1) continue;
    const shut = meets(solids, bearing_deg, elevation_deg, CELL_M);
    expect([bearing_deg, elevation_deg, around[0]! < 1]).toEqual([bearing_deg, elevation_deg, shut]);
    seen[shut ? 'shut' : 'open']++;
  }
  return seen;
}

const HOUSE = { kind: 'house', bearing_deg: 190, distance_m: 3, width_m: 9, height_m: 5, eaves_m: 0 };
const TREE = {
  kind: 'tree',
  bearing_deg: 280,
  distance_m: 3,
  trunk_width_m: 0.5,
  crown_base_m: 1.5,
  crown_top_m: 6,
  crown_width_m: 5,
};

describe('obstacleScreens against rays walked through the garden', () => {
  it.each<[string, Record<string, unknown>]>([
    ['a flat box', HOUSE],
    ['a box turned aside', { ...HOUSE, faces_deg: 40 }],
    ['a ridge', { ...HOUSE, height_m: 3, ridge_height_m: 7 }],
    [
      'a ridge seen from the gable',
      { ...HOUSE, distance_m: 4, faces_deg: 100, ridge_height_m: 8, width_m: 6 },
    ],
    ['a wide house near by', { ...HOUSE, distance_m: 0.5, width_m: 20 }],
  ])('hides what a house hides: %s', (_, value) => {
    const { shut, open } = compare(value, [boxSolid(section(value) as House)]);
    expect(Math.min(shut, open)).toBeGreaterThan(60);
  });

  it.each([0.3, 0.8])(
    'hides what eaves hide, also over the spot (spot %f m before the wall)',
    (distance_m) => {
      const value = { ...HOUSE, distance_m, height_m: 2.5, eaves_m: 0.6 };
      const house = section(value) as House;
      const { shut, open } = compare(value, [boxSolid(house), eavesSolid(house)]);
      expect(Math.min(shut, open)).toBeGreaterThan(60);
    },
  );

  it.each<[string, Record<string, unknown>]>([
    ['beside it', TREE],
    ['under its crown', { ...TREE, distance_m: 1.2 }],
    ['far off and tall', { ...TREE, distance_m: 9, crown_top_m: 14, crown_width_m: 6 }],
  ])('hides what crown and trunk of a tree hide, %s', (_, value) => {
    const tree = section(value) as Tree;
    const { shut, open } = compare(value, [crownSolid(tree), trunkSolid(tree)]);
    expect(Math.min(shut, open)).toBeGreaterThan(60);
  });

  it('sees the same from the spot as from a point moved by as much', () => {
    for (const value of [{ ...HOUSE, ridge_height_m: 7, eaves_m: 0.4 }, TREE]) {
      const still = obstacleScreens(obstacle(value), EYE, true);
      // The obstacle 3 m away seen from the origin, and the same 5 m away seen from 2 m nearer.
      const bearing = (value.bearing_deg * Math.PI) / 180;
      const nearer = { east_m: 2 * Math.sin(bearing), north_m: 2 * Math.cos(bearing), height_m: CELL_M };
      const moved = obstacleScreens(obstacle({ ...value, distance_m: value.distance_m + 2 }), nearer, true);
      for (let b = 0; b < 360; b += 7) {
        for (let e = 1; e < 90; e += 7) expect(passThrough(moved, b, e)).toBe(passThrough(still, b, e));
      }
    }
  });
});

describe('beam between two houses', () => {
  /** A gap of about a metre between two houses to the south. */
  const left = {
    ...HOUSE,
    bearing_deg: 140,
    distance_m: 5,
    faces_deg: 0,
    width_m: 6,
    height_m: 4,
    ridge_height_m: 6,
  };
  const right = { ...HOUSE, bearing_deg: 212, distance_m: 5.2, faces_deg: 0, width_m: 4, height_m: 4.5 };
  const START_MS = Date.UTC(2023, 1, 24);
  const HOURS = 6 * 24;

  it('is cut at the right minute for the centre of the sun', () => {
    const houses = [left, right].map((value) => obstacle(value));
    const dome = screenDome(houses.flatMap((house) => obstacleScreens(house, EYE, true)));
    const solids = [left, right].map((value) => boxSolid(section(value) as House));
    const sun = sunColumns(START_MS, HOURS, GARDEN);
    const { seen } = beamUnder(sun, dome, { tilt_deg: 0, bearing_deg: 0, passage: undefined });
    const step_s = 10;
    let cuts = 0;
    let worst_s = 0;
    for (let hour = 0; hour < HOURS; hour++) {
      if (sun.upShare[hour] === 0) continue;
      let free_s = 0;
      let changes = 0;
      let before: boolean | undefined;
      for (let second = step_s / 2; second < 3600; second += step_s) {
        const ms = START_MS + hour * 3_600_000 + second * 1000;
        const at = solarPosition(ms, GARDEN.latitude_deg, GARDEN.longitude_deg);
        if (at.altitude_deg <= 0) continue;
        const free = !meets(solids, at.azimuth_deg, at.altitude_deg, CELL_M, 25, 0.02);
        if (free) free_s += step_s;
        if (before !== undefined && free !== before) changes++;
        before = free;
      }
      const got_s = seen[hour]! * sun.upShare[hour]! * 3600;
      cuts += changes;
      worst_s = Math.max(worst_s, Math.abs(got_s - free_s));
      // A minute for each time the sun goes behind an edge or comes out, as asked; 10 s are the reference's own.
      expect(Math.abs(got_s - free_s)).toBeLessThan(60 * Math.max(changes, 1));
    }
    expect(cuts).toBeGreaterThan(15);
    // What is reached: a tenth of a degree of bearing is 24 s.
    expect(worst_s).toBeLessThan(60);
  });
});
