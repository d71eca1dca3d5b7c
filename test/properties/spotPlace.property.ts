import fc from 'fast-check';
import { expect } from 'vitest';
import { spotPlace } from '../../sim/spot/SpotPlace.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
import { openSky } from '../../sim/spot/sky/skyColumns.ts';
import { lightInSpot, type SpotLight, spotLight } from '../../sim/spot/spotLight.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import { GARDEN, inventedHours } from '../spot/inventedHours.ts';
import type { Property } from './Property.ts';

const HOURS = 400;
/** A number between two, on a grid of a thousand. */
const number = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1000 }).map((k) => min + ((max - min) * k) / 1000);

const where = { bearing_deg: number(0, 359), distance_m: number(0.8, 10) };
const obstacle = fc.oneof(
  fc.record({
    kind: fc.constant('house'),
    ...where,
    width_m: number(2, 20),
    depth_m: number(3, 9),
    height_m: number(1, 8),
    eaves_m: fc.constantFrom(0, 0.6),
    reflectance: number(0, 0.9),
  }),
  fc.record({
    kind: fc.constant('tree'),
    ...where,
    crown_base_m: number(1.5, 3),
    crown_top_m: number(4, 9),
    crown_width_m: number(1, 1.4),
    transmittance: number(0, 0.2),
    bare_transmittance: number(0.3, 0.8),
    leaf_on: fc.constant('04-28'),
  }),
);

const spot = fc.record({
  cell_tilt_deg: fc.constantFrom(0, 20, 60, 90),
  cell_bearing_deg: number(0, 359),
  sky_model: fc.constantFrom('hay-davies', 'perez', 'isotropic'),
  cover: fc.constantFrom(
    { kind: 'none' },
    { part: 'flat-lid', dirt_loss: 0.1 },
    { part: 'side-lit-jar' },
    { part: 'glass-dome' },
  ),
  cell_front: fc.constantFrom('flat', 'textured', 'coated', 'none'),
  shading: fc.constantFrom(undefined, { factor: 0.4 }),
  obstacles: fc.option(fc.dictionary(fc.constantFrom('one', 'two'), obstacle), { nil: undefined }),
});

const stretch = fc.record({
  latitude_deg: fc.constantFrom(54, -36, 70, -80, 0),
  start_ms: fc.constantFrom(Date.UTC(2023, 3, 20), Date.UTC(2024, 1, 20), Date.UTC(2024, 11, 25, 5)),
});

/** Invented weather of a seed, the third of three with snow. */
function weather(site: typeof GARDEN, start_ms: number, seed: number) {
  const record = inventedHours(site, start_ms, HOURS, seed);
  return seed % 3 === 0 ? { ...record, snowDepth_m: new Float64Array(HOURS).fill(0.04) } : record;
}

function expectSame(one: SpotLight, other: SpotLight): void {
  for (const [key, column] of Object.entries(one)) {
    if (column instanceof Float64Array || column instanceof Uint8Array) {
      expect(other[key as keyof SpotLight], key).toEqual(column);
    }
  }
  expect(other.snow).toEqual(one.snow);
  expect(other.cappedHours).toBe(one.cappedHours);
}

/** What one place under many weathers must give. */
export const SPOT_PLACE: Property[] = [
  {
    title: 'a further weather on a place gives, bit for bit, the light of a spot made anew',
    runs: 96,
    check: (runs) =>
      fc.assert(
        fc.property(spot, stretch, (section, { latitude_deg, start_ms }) => {
          const site = { ...GARDEN, latitude_deg };
          const params = spotParams(spotSchema.parse(section), () => {});
          // An obstacle over the spot is refused.
          fc.pre(params !== undefined);
          const calendar = skyCalendar({ start_ms, count: HOURS }, site);
          const place = spotPlace(params, calendar);
          for (const seed of [1, 2, 3]) {
            const record = weather(site, start_ms, seed);
            const again = lightInSpot(place, openSky(record, calendar));
            expectSame(spotLight(record, site, params), again);
            expect(again.planeOfArray_W_m2.every((light) => light >= 0)).toBe(true);
          }
        }),
        { numRuns: runs },
      ),
  },
];
