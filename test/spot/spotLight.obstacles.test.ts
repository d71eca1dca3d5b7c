import { describe, expect, it } from 'vitest';
import { compensatedSum } from '../../sim/common/numeric.ts';
import { planeFactors } from '../../sim/spot/planeFactors.ts';
import { planeLightInto } from '../../sim/spot/planeLight.ts';
import { spotPlace } from '../../sim/spot/SpotPlace.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { beamSight } from '../../sim/spot/shade/beamSight.ts';
import { skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
import { openSky } from '../../sim/spot/sky/skyColumns.ts';
import { lightInSpot, spotLight } from '../../sim/spot/spotLight.ts';
import { spotLimits } from '../../sim/spot/spotLimits.ts';
import { bareSpot, openSpot, type SpotParams, spotParams } from '../../sim/spot/spotParams.ts';
import { GARDEN, inventedHours } from './inventedHours.ts';

const WEATHER = inventedHours();
const CALENDAR = skyCalendar(WEATHER, GARDEN);
const OPEN = openSky(WEATHER, CALENDAR);

const paramsOf = (spot: unknown): SpotParams =>
  spotParams(spotSchema.parse(spot), (problem) => {
    throw new Error(`${problem.path.join('.')}: ${problem.got}`);
  })!;
const light = (spot: unknown) => spotLight(WEATHER, GARDEN, paramsOf(spot), {}, OPEN);
const year_kWh_m2 = (column: Float64Array) => compensatedSum(column) / 1000;
const month_kWh_m2 = (column: Float64Array, month: number) =>
  column.reduce(
    (sum, value, i) =>
      new Date(WEATHER.start_ms + i * 3_600_000).getUTCMonth() + 1 === month ? sum + value / 1000 : sum,
    0,
  );

const TREE = {
  kind: 'tree',
  bearing_deg: 'W',
  distance_m: 3,
  crown_base_m: 1.8,
  crown_top_m: 5,
  crown_width_m: 4,
};
const HOUSE = { kind: 'house', bearing_deg: 'S', distance_m: 3, width_m: 12, height_m: 5.4 };
const HEDGE = { kind: 'hedge', bearing_deg: 'SE', distance_m: 1.5, width_m: 8, height_m: 1.6 };
/** A wall without end to the north. */
const longWall = (reflectance: number) => ({
  kind: 'wall',
  bearing_deg: 'N',
  distance_m: 1,
  width_m: 50_000,
  height_m: 1.5,
  reflectance,
});

describe('spotLight among obstacles', () => {
  it('gives the same light whether sun and sky are handed in or made anew', () => {
    const spot = paramsOf({ cell_tilt_deg: 20, cell_bearing_deg: 'SSW', obstacles: { tree: TREE } });
    const shared = spotLight(WEATHER, GARDEN, spot, {}, OPEN);
    expect(spotLight(WEATHER, GARDEN, spot).planeOfArray_W_m2).toEqual(shared.planeOfArray_W_m2);
  });

  it('refuses a sky of other hours', () => {
    const other = inventedHours(GARDEN, Date.UTC(2023, 5, 1), 48);
    expect(() => openSky(other, CALENDAR)).toThrow('other hours');
    const place = spotPlace(paramsOf({}), skyCalendar(other, GARDEN));
    expect(() => lightInSpot(place, OPEN)).toThrow('different calendars');
  });

  it('changes the light of no month by 0.3 percent when the cells of the dome are halved', () => {
    const spot = paramsOf({
      cell_tilt_deg: 15,
      cell_bearing_deg: 'SW',
      obstacles: { tree: TREE, house: { ...HOUSE, bearing_deg: 'N', reflectance: 0.8 }, hedge: HEDGE },
    });
    const place = spotPlace(spot, CALENDAR);
    const plane = { tilt_deg: 15, bearing_deg: 225, passage: undefined };
    const sight = beamSight(CALENDAR.sun, CALENDAR.track, place.domes);
    const terms = { skyModel: place.factors.skyModel, whiteAlbedo: 0.2, sight };
    const withBearings = (bearings: number) => {
      const made = {
        beam_W_m2: new Float64Array(WEATHER.count),
        sky_W_m2: new Float64Array(WEATHER.count),
        reflected_W_m2: new Float64Array(WEATHER.count),
      };
      planeLightInto(made, planeFactors({ ...place, ...terms, plane, bearings }), OPEN, 0, WEATHER.count);
      return made.beam_W_m2.map((beam, i) => beam + made.sky_W_m2[i]! + made.reflected_W_m2[i]!);
    };
    const [coarse, usual, fine] = [360, 720, 1440].map(withBearings);
    for (let month = 1; month <= 12; month++) {
      const reference = month_kWh_m2(fine!, month);
      expect(Math.abs(month_kWh_m2(usual!, month) / reference - 1)).toBeLessThan(0.003);
      expect(Math.abs(month_kWh_m2(coarse!, month) / reference - 1)).toBeLessThan(0.006);
    }
  });

  it('returns from a long white wall under an even sky what the closed form says', () => {
    const site = { ...GARDEN, albedo: 0 };
    const dull = { ...WEATHER, dhi_W_m2: WEATHER.ghi_W_m2, dni_W_m2: new Float64Array(WEATHER.count) };
    const spot = {
      cover: { kind: 'none' },
      cell_front: 'none',
      cell_height_m: 0,
      sky_model: 'isotropic',
      obstacles: { wall: longWall(0.8) },
    };
    const made = spotLight(dull, site, paramsOf(spot));
    // A wall seen under h takes half the sky and sends reflectance times that to the share of the view it fills.
    const view = (1 - Math.cos(Math.atan(1.5))) / 2;
    const total = (column: Float64Array) => compensatedSum(column);
    expect(total(made.reflected_W_m2) / total(WEATHER.ghi_W_m2)).toBeCloseTo(0.8 * 0.5 * view, 4);
    expect(total(made.sky_W_m2) / total(WEATHER.ghi_W_m2)).toBeCloseTo(1 - view, 4);
  });

  it('lights a jar before a white wall that faces the winter sun more than the open lawn, by less than the wall throws', () => {
    const lawn = light({});
    const dark = light({ obstacles: { wall: { ...longWall(0), width_m: 6 } } });
    const white = light({ obstacles: { wall: { ...longWall(0.8), width_m: 6 } } });
    expect(year_kWh_m2(dark.planeOfArray_W_m2)).toBeLessThan(year_kWh_m2(lawn.planeOfArray_W_m2));
    const december = (made: typeof lawn) => month_kWh_m2(made.planeOfArray_W_m2, 12);
    expect(december(white)).toBeGreaterThan(december(lawn));
    // Of what falls on the wall (at most full sun on an upright plane, some 3 times the flat's) the view's share comes back.
    expect(month_kWh_m2(white.reflected_W_m2, 12)).toBeLessThan(0.8 * 3.5 * 0.25 * december(lawn));
    expect(month_kWh_m2(dark.reflected_W_m2, 12)).toBe(0);
  });

  it('does not light a white wall that a house keeps in the shade', () => {
    const wall = { ...longWall(0.8), width_m: 4, height_m: 1 };
    const house = { ...HOUSE, distance_m: 2, width_m: 30, height_m: 9, reflectance: 0 };
    const free = light({ obstacles: { wall } });
    const shaded = light({ obstacles: { wall, house } });
    expect(month_kWh_m2(shaded.beam_W_m2, 12)).toBe(0);
    expect(month_kWh_m2(shaded.reflected_W_m2, 12)).toBeLessThan(0.4 * month_kWh_m2(free.reflected_W_m2, 12));
    expect(month_kWh_m2(shaded.reflected_W_m2, 12)).toBeGreaterThan(0);
  });

  it('lets more through a tree from the day its leaves are gone, and only then', () => {
    const tree = { ...TREE, bearing_deg: 'S', distance_m: 2.5, transmittance: 0.1, bare_transmittance: 0.6 };
    const dates = { leaf_on: '05-01', leaf_off: '10-15' };
    const decid = light({ obstacles: { tree: { ...tree, ...dates } } });
    const green = light({ obstacles: { tree: { ...tree, bare_transmittance: 0.1 } } });
    const bare = light({ obstacles: { tree: { ...tree, transmittance: 0.6 } } });
    // Reflecting leaves are as many as are not passed, so bare equals the bare tree in all columns.
    for (let i = 0; i < WEATHER.count; i++) {
      const date = new Date(WEATHER.start_ms + i * 3_600_000).toISOString().slice(5, 10);
      const same = date >= '05-01' && date < '10-15' ? green : bare;
      if (decid.planeOfArray_W_m2[i] !== same.planeOfArray_W_m2[i]) expect(OPEN.sky.ghi_W_m2[i]).toBe(0);
    }
    expect(year_kWh_m2(decid.planeOfArray_W_m2)).toBeGreaterThan(year_kWh_m2(green.planeOfArray_W_m2));
    expect(year_kWh_m2(decid.planeOfArray_W_m2)).toBeLessThan(year_kWh_m2(bare.planeOfArray_W_m2));
  });

  it('never gives more sun or sky for one obstacle more', () => {
    const all = { tree: TREE, house: HOUSE, hedge: HEDGE };
    let before = light({ cell_tilt_deg: 20, cell_bearing_deg: 'W' });
    const standing: Record<string, unknown> = {};
    for (const [name, obstacle] of Object.entries(all)) {
      standing[name] = obstacle;
      const after = light({ cell_tilt_deg: 20, cell_bearing_deg: 'W', obstacles: standing });
      for (let i = 0; i < WEATHER.count; i++) {
        // What is left of the sky is the same integral cut at more places.
        expect(after.sky_W_m2[i]!).toBeLessThanOrEqual(before.sky_W_m2[i]! + 1e-9);
        // Nowhere here do two edges lie within the 45 seconds between two looks.
        expect(after.beam_W_m2[i]!).toBeLessThanOrEqual(before.beam_W_m2[i]! + 1e-6);
      }
      expect(year_kWh_m2(after.beam_W_m2)).toBeLessThan(year_kWh_m2(before.beam_W_m2));
      before = after;
    }
  });

  it('takes a dirty cover as the stated share of all light', () => {
    const clean = light({ obstacles: { hedge: HEDGE } });
    const dirty = light({ obstacles: { hedge: HEDGE }, cover: { part: 'flat-lid', dirt_loss: 0.2 } });
    for (let i = 0; i < WEATHER.count; i += 17) {
      expect(dirty.planeOfArray_W_m2[i]).toBeCloseTo(0.8 * clean.planeOfArray_W_m2[i]!, 9);
    }
  });

  it.each(['hay-davies', 'perez', 'isotropic'])('never gives NaN or negative light (%s)', (sky_model) => {
    for (const tilt of [0, 45, 90]) {
      const made = light({
        sky_model,
        cell_tilt_deg: tilt,
        cell_bearing_deg: 'E',
        obstacles: { tree: TREE, house: HOUSE, hedge: HEDGE },
      });
      for (const column of [made.beam_W_m2, made.sky_W_m2, made.reflected_W_m2]) {
        expect(column.every((value) => value >= 0 && value < 1500)).toBe(true);
      }
    }
  });
});

describe('spotLimits', () => {
  const limits = (spot: unknown, southern = false) => {
    const params = paramsOf(spot);
    const [here, open, bare] = [params, openSpot(params), bareSpot(params)].map((one) =>
      spotLight(WEATHER, GARDEN, one, {}, OPEN),
    );
    return spotLimits(here!, open!, bare!, southern);
  };

  it('finds nothing missing on an open lawn', () => {
    expect(limits({})).toMatchObject({
      lightShare: 1,
      skyShare: 1,
      beamShare: 1,
      reflectedShare: 0,
      mostLost: 'neither',
      months: [12, 1],
    });
  });

  it('finds the beam gone north of a house, and most of the sky left', () => {
    const { beamShare, skyShare, beam_h, sunshine_h, mostLost } = limits({ obstacles: { house: HOUSE } });
    expect([beamShare, beam_h, mostLost]).toEqual([0, 0, 'beam']);
    expect(sunshine_h).toBeGreaterThan(20);
    expect(skyShare).toBeGreaterThan(0.6);
    expect(skyShare).toBeLessThan(0.85);
  });

  it('adds up: what lid and front take, and then the surroundings, leaves what the spot has of all light', () => {
    const spot = { obstacles: { house: HOUSE }, cover: { part: 'flat-lid', dirt_loss: 0.1 } };
    const { coverShare, lightShare } = limits(spot);
    const winter = (made: ReturnType<typeof light>) =>
      month_kWh_m2(made.planeOfArray_W_m2, 12) + month_kWh_m2(made.planeOfArray_W_m2, 1);
    const all = winter(light({ cover: { kind: 'none' }, cell_front: 'none' }));
    expect(coverShare * lightShare).toBeCloseTo(winter(light(spot)) / all, 9);
    expect(coverShare).toBeLessThan(0.75);
    expect(limits({ cover: { kind: 'none' }, cell_front: 'none' }).coverShare).toBe(1);
    expect(limits({ cover: { kind: 'none' } }).coverShare).toBeLessThan(
      limits({ cover: { kind: 'none' }, cell_front: 'textured' }).coverShare,
    );
  });

  it('counts dirt and walls, and looks at June and July in the south', () => {
    const dirty = limits({ cover: { part: 'flat-lid', dirt_loss: 0.5 } });
    expect(dirty.skyShare).toBeCloseTo(0.5, 9);
    expect(limits({ obstacles: { wall: longWall(0.8) } }).reflectedShare).toBeGreaterThan(0.1);
    expect(limits({}, true).months).toEqual([6, 7]);
  });

  it('refuses light of other hours', () => {
    const short = spotLight(inventedHours(GARDEN, Date.UTC(2023, 0, 1), 24), GARDEN, paramsOf({}));
    expect(() => spotLimits(short, light({}), short, false)).toThrow('other hours');
    expect(() => spotLimits(short, short, light({}), false)).toThrow('other hours');
  });
});
