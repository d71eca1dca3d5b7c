import { domeShares } from '../../sim/spot/shade/domeShares.ts';
import type { BoxObstacle } from '../../sim/spot/shade/Obstacle.ts';
import { obstacleScreens } from '../../sim/spot/shade/obstacleScreens.ts';
import { OPEN_DOME, type SkyDome, screenDome } from '../../sim/spot/shade/SkyDome.ts';
import { horizonDome } from '../spot/domes.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Sky view';
type Rests = Pick<TruthCase, 'source' | 'status'>;
const OKE: Rests = {
  source:
    'closed form of T. R. Oke, Boundary Layer Climates, and D. G. Steyn, Atmosphere-Ocean 18 (1980) 254: from memory; a quadrature made apart agrees',
  status: 'computed, from memory',
};
const HERE: Rests = {
  source: 'closed form made here, in no book that was seen; a quadrature made apart agrees',
  status: 'derived here',
};
const STREET: Rests = {
  source: 'closed form made here, in no book that was seen',
  status: 'derived here',
};
const QUADRATURE: Rests = {
  source: 'hemispherical quadrature made apart, four decimals',
  status: 'derived here',
};

const around = (elevation_deg: number): SkyDome =>
  horizonDome({
    bearing_deg: Float64Array.of(0, 120, 240),
    elevation_deg: Float64Array.of(elevation_deg, elevation_deg, elevation_deg),
  });

/** A wall without end towards the south, seen under an elevation at its nearest point: rows of a profile every degree. */
function wall(elevation_deg: number): SkyDome {
  const bearing_deg = Float64Array.from({ length: 360 }, (_, i) => i);
  const tangent = Math.tan((elevation_deg * Math.PI) / 180);
  return horizonDome({
    bearing_deg,
    elevation_deg: bearing_deg.map((bearing) =>
      Math.max(0, (Math.atan(-tangent * Math.cos((bearing * Math.PI) / 180)) * 180) / Math.PI),
    ),
  });
}

/** Walls without end, each under an elevation at its nearest point and at a distance, seen from the ground. */
function longWalls(
  walls: readonly { bearing_deg: number; distance_m: number; elevation_deg: number }[],
): SkyDome {
  const boxes = walls.map(
    ({ bearing_deg, distance_m, elevation_deg }, k): BoxObstacle => ({
      name: `wall ${k}`,
      kind: 'wall',
      bearing_deg,
      distance_m,
      faces_deg: (bearing_deg + 180) % 360,
      width_m: 1e5 * distance_m,
      height_m: distance_m * Math.tan((elevation_deg * Math.PI) / 180),
      depth_m: 0,
      eaves_m: 0,
      reflectance: 0,
      leaves: { transmittance: 0, bareTransmittance: 0, on: undefined, off: undefined },
    }),
  );
  return screenDome(
    boxes.flatMap((box) => obstacleScreens(box, { east_m: 0, north_m: 0, height_m: 0 }, true)),
  );
}

const share = (
  what: string,
  expected: number,
  dome: () => SkyDome,
  tilt_deg: number,
  rests: Rests,
): TruthCase => ({
  topic,
  what,
  unit: '1',
  expected,
  tolerance: expected * 0.001,
  why: 'half-degree bearings, one-degree profile points',
  ...rests,
  compute: () => domeShares(dome(), tilt_deg, 180).sky,
});

export const cases: TruthCase[] = [
  ...(
    [
      [30, 0.93301],
      [45, 0.85355],
      [60, 0.75],
      [90, 0.5],
    ] as const
  ).map(([tilt, value]) =>
    share(`open horizon, tilt ${tilt} deg`, value, () => OPEN_DOME, tilt, {
      source: 'B. Y. H. Liu and R. C. Jordan, Solar Energy 7 (1963) 53, from memory',
      status: 'computed, from memory',
    }),
  ),
  ...(
    [
      [10, 0.96985],
      [20, 0.88302],
      [30, 0.75],
      [45, 0.5],
    ] as const
  ).map(([h, value]) => share(`flat, horizon of ${h} deg all around`, value, () => around(h), 0, OKE)),
  ...(
    [
      [20, 0.96985],
      [45, 0.85355],
      [60, 0.75],
      [80, 0.58682],
    ] as const
  ).map(([h, value]) => share(`flat, wall without end, ${h} deg high`, value, () => wall(h), 0, OKE)),
  share('tilt 30 towards a wall 20 deg high', 0.82139, () => wall(20), 30, HERE),
  share('tilt 45 towards a wall 30 deg high', 0.62941, () => wall(30), 45, HERE),
  ...[0.4, 3, 50].flatMap((distance_m) =>
    (
      [
        [20, 0.96985],
        [60, 0.75],
        [80, 0.58682],
      ] as const
    ).map(([elevation_deg, value]) =>
      share(
        `flat, wall without end ${distance_m} m away, ${elevation_deg} deg high`,
        value,
        () => longWalls([{ bearing_deg: 200, distance_m, elevation_deg }]),
        0,
        OKE,
      ),
    ),
  ),
  share(
    'tilt 45 towards a wall without end 2 m away, 30 deg high',
    0.62941,
    () => longWalls([{ bearing_deg: 180, distance_m: 2, elevation_deg: 30 }]),
    45,
    HERE,
  ),
  ...(
    [
      [40, 50, 0.70442],
      [30, 60, 0.68301],
      [70, 20, 0.64086],
    ] as const
  ).map(([left, right, value]) =>
    share(
      `flat, street between walls ${left} and ${right} deg high: half the sum of their cosines`,
      value,
      () =>
        longWalls([
          { bearing_deg: 270, distance_m: 3, elevation_deg: left },
          { bearing_deg: 90, distance_m: 5, elevation_deg: right },
        ]),
      0,
      STREET,
    ),
  ),
  ...(
    [
      [10, 0.39001],
      [20, 0.28659],
      [30, 0.1955],
    ] as const
  ).map(([h, value]) => share(`upright, horizon of ${h} deg all around`, value, () => around(h), 90, HERE)),
  share('tilt 20, horizon of 30 deg all around', 0.70477, () => around(30), 20, HERE),
  share('tilt 30, horizon of 30 deg all around', 0.64952, () => around(30), 30, HERE),
  share('tilt 30, horizon of 45 deg all around', 0.43301, () => around(45), 30, HERE),
  ...(
    [
      [30, 10, 0.8641],
      [30, 20, 0.7689],
      [45, 10, 0.7647],
      [45, 20, 0.6582],
      [45, 30, 0.5395],
      [60, 10, 0.647],
      [60, 20, 0.5347],
      [60, 30, 0.4196],
    ] as const
  ).map(([tilt, h, value]) =>
    share(`tilt ${tilt}, horizon of ${h} deg all around`, value, () => around(h), tilt, QUADRATURE),
  ),
];
