import { describe, expect, it } from 'vitest';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { spotSchema } from '../../../sim/spot/schema.ts';
import { leafStates } from '../../../sim/spot/shade/seasonDomes.ts';
import { spotParams } from '../../../sim/spot/spotParams.ts';

const TREE = {
  kind: 'tree',
  bearing_deg: 'WNW',
  distance_m: 4,
  crown_base_m: 1.8,
  crown_top_m: 6,
  crown_width_m: 5,
};
const HOUSE = { kind: 'house', bearing_deg: 180, distance_m: 3, width_m: 10, height_m: 5.4 };

function problemsOf(obstacle: unknown, spot: object = {}) {
  const problems: ValueProblem[] = [];
  const made = spotParams(spotSchema.parse({ ...spot, obstacles: { it: obstacle } }), (problem) =>
    problems.push(problem),
  );
  expect(made === undefined).toBe(problems.length > 0);
  return problems.map(({ code, path, got }) => [code, path.join('.'), got]);
}

const refused = (obstacle: unknown) =>
  spotSchema
    .safeParse({ obstacles: { it: obstacle } })
    .error?.issues.map(({ code, path }) => [code, path.join('.')]);

describe('obstacles of a spot', () => {
  it('takes bearings as numbers and as points of the compass, and fills in what is usual', () => {
    const spot = spotParams(
      spotSchema.parse({ cell_tilt_deg: 5, cell_bearing_deg: 'SSW', obstacles: { it: TREE, house: HOUSE } }),
      () => {},
    )!;
    expect(spot.cellBearing_deg).toBe(202.5);
    expect(spot.obstacles).toMatchObject([
      { name: 'it', bearing_deg: 292.5, leaves: { transmittance: 0.1, bareTransmittance: 0.5 } },
      { name: 'house', bearing_deg: 180, faces_deg: 0, depth_m: 8, leaves: { transmittance: 0 } },
    ]);
  });

  it.each<[string, unknown, string, string]>([
    ['a negative distance', { ...HOUSE, distance_m: -3 }, 'too_small', 'obstacles.it.distance_m'],
    ['no distance', { ...HOUSE, distance_m: 0 }, 'too_small', 'obstacles.it.distance_m'],
    ['a bearing of 400', { ...HOUSE, bearing_deg: 400 }, 'too_big', 'obstacles.it.bearing_deg'],
    ['a point that is none', { ...HOUSE, bearing_deg: 'NSE' }, 'invalid_union', 'obstacles.it.bearing_deg'],
    ['leaf dates in words', { ...TREE, leaf_on: 'May' }, 'invalid_format', 'obstacles.it.leaf_on'],
    ['a kind that is none', { ...HOUSE, kind: 'tower' }, 'invalid_union', 'obstacles.it.kind'],
    ['a key of another kind', { ...HOUSE, openness: 0.5 }, 'unrecognized_keys', 'obstacles.it'],
    ['more light than falls on it', { ...TREE, transmittance: 1.2 }, 'too_big', 'obstacles.it.transmittance'],
  ])('refuses %s with its key path', (_, obstacle, code, path) => {
    expect(refused(obstacle)).toEqual([[code, path]]);
  });

  it.each<[string, unknown, string, string, string]>([
    [
      'a crown that holds the jar',
      { ...TREE, distance_m: 0.5, crown_base_m: 0 },
      'SPOT_GEOMETRY',
      'obstacles.it.distance_m',
      'distance_m 0.5, which puts the spot inside its crown',
    ],
    [
      'a trunk that holds the jar',
      { ...TREE, distance_m: 0.1 },
      'SPOT_GEOMETRY',
      'obstacles.it.distance_m',
      'distance_m 0.1, which puts the spot inside its trunk',
    ],
    [
      'a house turned over the jar',
      { ...HOUSE, faces_deg: 180 },
      'SPOT_GEOMETRY',
      'obstacles.it.faces_deg',
      'faces_deg 180, which puts the spot inside the house',
    ],
    [
      'a crown upside down',
      { ...TREE, crown_top_m: 1 },
      'SPOT_GEOMETRY',
      'obstacles.it.crown_top_m',
      'a crown from 1.8 m up to 1 m',
    ],
    [
      'a ridge under the eaves',
      { ...HOUSE, ridge_height_m: 4 },
      'SPOT_GEOMETRY',
      'obstacles.it.ridge_height_m',
      'a ridge at 4 m over eaves at 5.4 m',
    ],
    [
      'a day outside the year',
      { ...TREE, leaf_off: '13-05' },
      'SCENARIO_OUT_OF_RANGE',
      'obstacles.it.leaf_off',
      '"13-05"',
    ],
    [
      'a day its month lacks',
      { ...TREE, leaf_on: '04-31' },
      'SCENARIO_OUT_OF_RANGE',
      'obstacles.it.leaf_on',
      '"04-31"',
    ],
    [
      'leaves that come and go on one day',
      { ...TREE, leaf_on: '05-01', leaf_off: '05-01' },
      'SCENARIO_CONFLICT',
      'obstacles.it.leaf_off',
      'leaf_on and leaf_off both 05-01',
    ],
  ])('refuses %s', (_, obstacle, code, path, got) => {
    expect(problemsOf(obstacle)).toEqual([[code, path, got]]);
  });

  it('refuses obstacles beside light logged on the cell, or beside a log that replaces them', () => {
    const log = {
      file: 'l.csv',
      stamp: { column: 't', zone: 'UTC', marks: 'start' },
      column: 'l',
      unit: 'W/m2',
    };
    expect(problemsOf(HOUSE, { light_on_cell: log })).toEqual([
      ['SCENARIO_CONFLICT', 'obstacles', 'obstacles beside light_on_cell'],
    ]);
    expect(problemsOf(HOUSE, { measured_light: log })).toEqual([
      ['SCENARIO_CONFLICT', 'obstacles', 'obstacles beside a measured_light that replaces the geometry'],
    ]);
    expect(problemsOf(HOUSE, { measured_light: { ...log, replaces: 'factor' } })).toEqual([]);
  });
});

describe('leafStates', () => {
  const YEAR_MS = Date.UTC(2023, 0, 1);
  const tree = (dates: object) =>
    spotParams(spotSchema.parse({ obstacles: { it: { ...TREE, ...dates } } }), () => {})!.obstacles;
  const leafDays = (dates: object, site = { latitude_deg: 54, longitude_deg: 0 }) => {
    const { states, ofHour } = leafStates(tree(dates), YEAR_MS, 8760, site);
    const days: string[] = [];
    ofHour.forEach((state, i) => {
      const date = new Date(YEAR_MS + i * 3_600_000).toISOString().slice(5, 10);
      if (states[state]![0] && days.at(-1) !== date) days.push(date);
    });
    return [days[0], days.at(-1), days.length];
  };

  it('has leaves from the day they come to the day before they go', () => {
    expect(leafDays({ leaf_on: '05-03', leaf_off: '10-20' })).toEqual(['05-03', '10-19', 170]);
  });

  it('joins a summer that runs over the end of the year', () => {
    expect(leafDays({ leaf_on: '10-01', leaf_off: '04-01' })).toEqual(['01-01', '12-31', 182]);
  });

  it('takes the usual dates of the hemisphere', () => {
    expect(leafDays({})).toEqual(['04-25', '11-04', 194]);
    expect(leafDays({}, { latitude_deg: -40, longitude_deg: 0 })).toEqual(['01-01', '12-31', 192]);
  });

  it('has one state where leaves make no difference, and the day of the place, not of UTC', () => {
    expect(leafStates(tree({ bare_transmittance: 0.1 }), YEAR_MS, 8760, GREENWICH).states).toEqual([[true]]);
    const east = leafStates(tree({ leaf_on: '05-03' }), YEAR_MS, 8760, {
      latitude_deg: 54,
      longitude_deg: 150,
    });
    const hour = east.ofHour.findIndex((state) => east.states[state]![0]!);
    expect(new Date(YEAR_MS + hour * 3_600_000).toISOString()).toBe('2023-05-02T14:00:00.000Z');
  });
});

const GREENWICH = { latitude_deg: 54, longitude_deg: 0 };
