import { describe, expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { compensatedSum } from '../../sim/common/numeric.ts';
import { readSpotFiles } from '../../sim/spot/readSpotFiles.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { domeShares } from '../../sim/spot/shade/domeShares.ts';
import { horizonProfile } from '../../sim/spot/shade/horizonProfile.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { spotLight } from '../../sim/spot/spotLight.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import type { Site } from '../../sim/sun/Site.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';
import { horizonDome } from './domes.ts';
import { GARDEN, inventedHours } from './inventedHours.ts';

const WEATHER = inventedHours();

function light(
  spot: unknown,
  files: Record<string, string> = {},
  weather: WeatherRecord | undefined = WEATHER,
  site: Site = GARDEN,
): SpotLight {
  const params = spotParams(spotSchema.parse(spot), (problem) => {
    throw new Error(problem.expected);
  });
  const read = readSpotFiles(params!, (file) => new TextEncoder().encode(files[file]));
  return spotLight(weather, site, params!, read);
}

const messageOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof InputProblem) return error.message;
    throw error;
  }
  return 'no problem';
};

const year_kWh_m2 = (column: Float64Array) => compensatedSum(column) / 1000;
const profile = (rows: [number, number][]) =>
  `bearing_deg,elevation_deg\n${rows.map((row) => row.join(',')).join('\n')}\n`;
/** A house to the south, 50 degrees high in the middle. */
const HOUSE = profile([
  [0, 0],
  [94, 0],
  [95, 15],
  [180, 50],
  [265, 15],
  [266, 0],
]);

describe('spotLight', () => {
  it.each(['isotropic', 'hay-davies'])(
    'gives a bare flat cell that loses nothing at its front the global light in the open (%s)',
    (sky_model) => {
      const { planeOfArray_W_m2, ghi_W_m2 } = light({
        cover: { kind: 'none' },
        cell_front: 'none',
        sky_model,
      });
      for (let i = 0; i < ghi_W_m2.length; i++) {
        // Trapezia of 3 minutes in the beam against 5 in the split, a few parts in 1e5.
        expect(Math.abs(planeOfArray_W_m2[i]! - ghi_W_m2[i]!)).toBeLessThan(1e-4 * ghi_W_m2[i]! + 0.02);
      }
    },
  );

  it('adds beam, sky and reflected light up to all of it, none negative, none NaN', () => {
    const all = light({ cell_tilt_deg: 25, cell_bearing_deg: 200, horizon: { file: 'h' } }, { h: HOUSE });
    for (let i = 0; i < all.count; i++) {
      const parts = [all.beam_W_m2[i]!, all.sky_W_m2[i]!, all.reflected_W_m2[i]!];
      expect(Math.min(...parts)).toBeGreaterThanOrEqual(0);
      expect(all.planeOfArray_W_m2[i]).toBeCloseTo(parts[0]! + parts[1]! + parts[2]!, 9);
    }
  });

  it('never gives more sun and sky under a higher horizon', () => {
    let before = light({ cell_tilt_deg: 10, cell_bearing_deg: 180 });
    for (const height of [5, 15, 30, 60]) {
      const after = light(
        { cell_tilt_deg: 10, cell_bearing_deg: 180, horizon: { file: 'h' } },
        {
          h: profile([
            [0, height],
            [120, height],
            [240, height],
          ]),
        },
      );
      for (let i = 0; i < after.count; i++) {
        expect(after.beam_W_m2[i]!).toBeLessThanOrEqual(before.beam_W_m2[i]! + 1e-9);
        expect(after.sky_W_m2[i]!).toBeLessThanOrEqual(before.sky_W_m2[i]! + 1e-9);
      }
      before = after;
    }
  });

  it('leaves no beam at all north of a wall that the winter sun never clears', () => {
    const december = inventedHours(GARDEN, Date.UTC(2023, 11, 1), 744);
    const bare = { cover: { kind: 'none' }, cell_front: 'none' };
    const shaded = light({ ...bare, horizon: { file: 'h' } }, { h: HOUSE }, december);
    const open = light(bare, {}, december);
    expect(Math.max(...shaded.beam_W_m2)).toBe(0);
    expect(year_kWh_m2(open.beam_W_m2)).toBeGreaterThan(1);
    const dome = horizonDome(horizonProfile({ name: 'h', bytes: new TextEncoder().encode(HOUSE) }));
    const { sky } = domeShares(dome, 0, 0);
    expect(sky).toBeLessThan(0.9);
    for (let i = 0; i < open.count; i++) {
      expect(shaded.sky_W_m2[i]!).toBeCloseTo(open.sky_W_m2[i]! * sky, 9);
    }
  });

  it('returns more light from a white house than from a dark one', () => {
    const with_ = (reflectance: number) =>
      year_kWh_m2(light({ horizon: { file: 'h', reflectance } }, { h: HOUSE }).reflected_W_m2);
    expect(with_(0)).toBe(0);
    expect(with_(0.8)).toBeCloseTo(4 * with_(0.2), 9);
    expect(with_(0.2)).toBeGreaterThan(1);
  });

  it('turns the cell to the sun: south gains and north loses against the flat in winter', () => {
    const december = inventedHours(GARDEN, Date.UTC(2023, 11, 1), 744);
    const [south, flat, north] = [
      [30, 180],
      [0, 180],
      [30, 0],
    ].map(([tilt, bearing]) =>
      year_kWh_m2(light({ cell_tilt_deg: tilt, cell_bearing_deg: bearing }, {}, december).planeOfArray_W_m2),
    );
    expect(south).toBeGreaterThan(1.1 * flat!);
    expect(north).toBeLessThan(0.9 * flat!);
  });

  it('takes less through a lid than without, by 8 to 20 percent over a year', () => {
    const cell_front = 'none';
    const bare = year_kWh_m2(light({ cover: { kind: 'none' }, cell_front }).planeOfArray_W_m2);
    const lid = year_kWh_m2(light({ cover: { part: 'flat-lid' }, cell_front }).planeOfArray_W_m2);
    // Fresnel loss straight through is 8 percent; low sun and sky lose up to twice that.
    expect(lid / bare).toBeGreaterThan(0.8);
    expect(lid / bare).toBeLessThan(0.92);
  });

  it("loses a tenth of a lawn's December light at a flat front, and a little less behind a lid", () => {
    const december = inventedHours(GARDEN, Date.UTC(2023, 11, 1), 744);
    const lies = { cell_tilt_deg: 10, cell_bearing_deg: 'S' };
    const kept = (spot: object) => {
      const all = (cell_front: string) =>
        year_kWh_m2(light({ ...lies, ...spot, cell_front }, {}, december).planeOfArray_W_m2);
      return ['flat', 'coated', 'textured'].map((front) => all(front) / all('none'));
    };
    const [bare, lid] = [kept({ cover: { kind: 'none' } }), kept({})];
    for (const [flat, coated, textured] of [bare, lid]) {
      expect(coated).toBeGreaterThan(flat! + 0.01);
      expect(textured).toBeGreaterThan(coated! + 0.01);
    }
    expect(Math.abs(bare[0]! - 0.9)).toBeLessThan(0.01);
    // A lid has turned away much of the light at the greatest slants before.
    expect(Math.abs(lid[0]! - 0.915)).toBeLessThan(0.01);
  });

  it('takes light logged on the cell as it is, whatever the front', () => {
    const rows = Array.from(
      { length: 24 },
      (_, h) => `${new Date(Date.UTC(2023, 5, 1, h)).toISOString()},${h}`,
    );
    const light_on_cell = {
      file: 'log',
      stamp: { column: 'utc', zone: 'UTC', marks: 'start' },
      column: 'light',
      unit: 'W/m2',
    };
    const of = (cell_front: string) =>
      light({ light_on_cell, cell_front }, { log: `utc,light\n${rows.join('\n')}\n` }).planeOfArray_W_m2;
    expect(of('flat')).toEqual(of('none'));
    expect(of('flat')[9]).toBe(9);
  });

  it.each([-90, -54, 0, 71, 90])('holds only finite light at latitude %f', (latitude_deg) => {
    const site = { ...GARDEN, latitude_deg };
    const { planeOfArray_W_m2, sunAltitude_deg } = light(
      { cell_tilt_deg: 40, cell_bearing_deg: 0 },
      {},
      inventedHours(site),
      site,
    );
    expect(planeOfArray_W_m2.every(Number.isFinite)).toBe(true);
    expect(sunAltitude_deg.every(Number.isFinite)).toBe(true);
    // A plane that faces the sun through a clear sky takes at most some 1.1 of full sun.
    expect(Math.max(...planeOfArray_W_m2)).toBeLessThan(1300);
  });

  it('multiplies all light with a fixed factor, or hour by hour with a trace', () => {
    const open = light({});
    const half = light({ shading: { factor: 0.5 } });
    expect(half.planeOfArray_W_m2).toEqual(open.planeOfArray_W_m2.map((value) => value / 2));
    const weather = inventedHours(GARDEN, Date.UTC(2023, 5, 1), 24);
    const rows = Array.from(
      { length: 24 },
      (_, h) => `2023-06-01T${String(h).padStart(2, '0')}:00Z,${h < 12 ? 25 : 100}`,
    );
    const shading = {
      file: 't',
      stamp: { column: 'start', zone: 'UTC', marks: 'start' },
      column: 'share',
      unit: '%',
    };
    const shaded = light({ shading }, { t: `start,share\n${rows.join('\n')}\n` }, weather);
    const free = light({}, {}, weather);
    for (let h = 0; h < 24; h++) {
      expect(shaded.planeOfArray_W_m2[h]).toBeCloseTo(free.planeOfArray_W_m2[h]! * (h < 12 ? 0.25 : 1), 9);
    }
    expect(
      messageOf(() => light({ shading }, { t: `start,share\n${rows.slice(1).join('\n')}\n` }, weather)),
    ).toBe(
      'SPOT_PROFILE  t, "start"\n  got hours from 2023-06-01 01:00 UTC to 2023-06-02 00:00 UTC; expected every hour of the weather, from 2023-06-01 00:00 UTC to 2023-06-02 00:00 UTC. Fix: extend the trace, or give a fixed factor instead.',
    );
    const wrong = { ...shading, unit: '1' };
    expect(
      messageOf(() => light({ shading: wrong }, { t: `start,share\n${rows.join('\n')}\n` }, weather)),
    ).toContain('say unit: "%" if the column holds percent.');
  });

  it('takes light that was logged on the cell as it is, without weather, for any number of hours', () => {
    const rows = Array.from({ length: 30 }, (_, h) => {
      const stamp = new Date(Date.UTC(2024, 11, 20, h)).toISOString().slice(0, 16);
      return `${stamp},${h % 24 === 12 ? 45.5 : 0},${h - 5}`;
    });
    const file = `utc,light,air\n${rows.join('\n')}\n`;
    const light_on_cell = {
      file: 'log.csv',
      stamp: { column: 'utc', zone: 'UTC', marks: 'start' },
      column: 'light',
      unit: 'W/m2',
      air_temperature: { column: 'air', unit: 'degC' },
    };
    const params = spotParams(spotSchema.parse({ light_on_cell }), () => {})!;
    const filesOf = (text: string) => readSpotFiles(params, () => new TextEncoder().encode(text));
    const logged = spotLight(undefined, GARDEN, params, filesOf(file));
    expect(logged.count).toBe(30);
    expect(logged.start_ms).toBe(Date.UTC(2024, 11, 20));
    expect([logged.planeOfArray_W_m2[11], logged.planeOfArray_W_m2[12]]).toEqual([0, 45.5]);
    expect(logged.air_degC[29]).toBe(24);
    expect(logged.ghi_W_m2.every(Number.isNaN)).toBe(true);
    expect(logged.sunAltitude_deg[11]!).toBeGreaterThan(12);
    // Dusk of 20 December at 54 N 10 E: about 50 minutes after sunset near 15:00 UTC.
    const dusk = logged.nights.eveningDate.indexOf('2024-12-20');
    expect(new Date(logged.dusk_ms[dusk]!).getUTCHours()).toBe(15);
    expect(messageOf(() => filesOf(file.replaceAll('45.5', '45500')))).toContain(
      'got 45500 W/m2; expected daylight, -10 to 1600 W/m2. Fix: check the unit (W/m2 is stated) and the sensor.',
    );
  });

  it('asks for weather where no light was logged', () => {
    const params = spotParams(spotSchema.parse({}), () => {})!;
    expect(messageOf(() => spotLight(undefined, GARDEN, params))).toContain(
      'got neither weather nor light_on_cell',
    );
  });
});
