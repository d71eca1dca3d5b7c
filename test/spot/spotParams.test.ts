import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { ValueProblem } from '../../sim/common/InputProblem.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';

function converted(value: unknown) {
  const problems: ValueProblem[] = [];
  const spot = spotParams(spotSchema.parse(value), (problem) => problems.push(problem));
  return { spot, problems: problems.map(({ code, path }) => [code, path.join('.')]) };
}

const LOG = {
  file: 'log.csv',
  stamp: { column: 'time', zone: 'UTC', marks: 'start' },
  column: 'light',
  unit: 'W/m2',
};

describe('spotParams', () => {
  it('takes a spot with nothing said as a flat cell under a glass lid in the open', () => {
    expect(converted({}).spot).toMatchObject({
      cellTilt_deg: 0,
      cover: { refractiveIndex: 1.526 },
      horizon: undefined,
      shading: undefined,
      skyModel: 'hay-davies',
      loggedLight: undefined,
    });
  });

  it('lets keys beside a part win, raw values replace it, and kind none switch the cover off', () => {
    const thick = converted({ cover: { part: 'flat-lid', thickness_mm: 8 } }).spot;
    expect(thick?.cover).toMatchObject({ refractiveIndex: 1.526, thickness_m: 0.008 });
    const raw = { refractive_index: 1.49, absorption_per_m: 5, thickness_mm: 3 };
    expect(converted({ cover: { raw } }).spot?.cover).toEqual({
      kind: 'flat',
      refractiveIndex: 1.49,
      absorption_per_m: 5,
      thickness_m: 0.003,
    });
    expect(converted({ cover: { kind: 'none' } }).spot?.cover).toBe('none');
  });

  it('reports about everything at once: bearing, cover and shading', () => {
    const { spot, problems } = converted({
      cell_tilt_deg: 10,
      cover: { part: 'flat-lit' },
      shading: { file: 'trace.csv' },
    });
    expect(spot).toBeUndefined();
    expect(problems).toEqual([
      ...['refractive_index', 'absorption_per_m', 'thickness_mm'].map((key) => [
        'SCENARIO_MISSING_KEY',
        `cover.${key}`,
      ]),
      ['SCENARIO_MISSING_KEY', 'cell_bearing_deg'],
      ['SCENARIO_MISSING_KEY', 'shading.stamp'],
      ['SCENARIO_MISSING_KEY', 'shading.column'],
    ]);
  });

  it('refuses what cannot hold together', () => {
    expect(converted({ shading: { factor: 0.5, file: 'trace.csv' } }).problems).toEqual([
      ['SCENARIO_CONFLICT', 'shading'],
    ]);
    expect(converted({ light_on_cell: LOG, horizon: { file: 'house.csv' } }).problems).toEqual([
      ['SCENARIO_CONFLICT', 'horizon'],
    ]);
    const air = { column: 'air', constant_degC: 5 };
    expect(converted({ light_on_cell: { ...LOG, air_temperature: air } }).problems).toEqual([
      ['SCENARIO_CONFLICT', 'light_on_cell.air_temperature'],
    ]);
    expect(converted({ cover: { part: 'clear-resin' }, cell_front: 'textured' }).problems).toEqual([
      ['SCENARIO_CONFLICT', 'cell_front'],
    ]);
    expect(converted({ cover: {} }).problems).toHaveLength(3);
  });

  it('has a schema that refuses unknown keys and can be written as JSON Schema', () => {
    expect(spotSchema.safeParse({ cell_tilt: 10 }).success).toBe(false);
    expect(spotSchema.safeParse({ cell_tilt_deg: 95 }).success).toBe(false);
    expect(z.toJSONSchema(spotSchema, { io: 'input' })).toMatchObject({
      properties: { cell_tilt_deg: { unit: 'deg', default: 0 } },
    });
  });
});
