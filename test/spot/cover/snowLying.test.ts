import { describe, expect, it } from 'vitest';
import { snowLying, throughSnow } from '../../../sim/spot/cover/snowLying.ts';
import { spotSchema } from '../../../sim/spot/schema.ts';
import { spotLight } from '../../../sim/spot/spotLight.ts';
import { spotParams } from '../../../sim/spot/spotParams.ts';
import type { WeatherRecord } from '../../../sim/weather/WeatherRecord.ts';
import { GARDEN, inventedHours } from '../inventedHours.ts';

const HOURS = 240;
const START_MS = Date.UTC(2023, 1, 10);
const bare = inventedHours(GARDEN, START_MS, HOURS);

const weather = (columns: Partial<WeatherRecord>): WeatherRecord => ({ ...bare, ...columns });
const filled = (value: (hour: number) => number) => Float64Array.from({ length: HOURS }, (_, i) => value(i));

describe('snowLying', () => {
  it('knows no snow where the weather has neither snow depth nor precipitation', () => {
    expect(snowLying(bare)).toBeUndefined();
  });

  it('lets precipitation fall as snow at 1 degree or colder, and melt by 4 mm a day and degree', () => {
    const rain_mm = filled((i) => (i >= 10 && i < 14 ? 2 : 0));
    const frost = snowLying(weather({ rain_mm, air_degC: filled(() => -2) }))!;
    expect([frost.lid_mm[9], frost.lid_mm[11], frost.lid_mm[13], frost.lid_mm[200]]).toEqual([0, 4, 8, 8]);
    expect(frost.from).toBe('precipitation and temperature');
    const mild = snowLying(weather({ rain_mm, air_degC: filled(() => 3) }))!;
    expect(Math.max(...mild.lid_mm)).toBe(0);
    // 8 mm fall in frost, then 2 degrees: 8 mm a day, gone after 24 h.
    const thaw = snowLying(weather({ rain_mm, air_degC: filled((i) => (i < 20 ? -2 : 2)) }))!;
    expect(thaw.lid_mm[31]).toBeCloseTo(4, 9);
    expect([thaw.lid_mm[42]! > 0, thaw.lid_mm[43]! < 1e-9]).toEqual([true, true]);
  });

  it('takes a snow depth where there is one: fresh snow where it rises, none where it is gone', () => {
    const snowDepth_m = filled((i) => (i < 24 ? 0 : i < 100 ? 0.05 : i < 150 ? 0.03 : 0));
    const snow = snowLying(weather({ snowDepth_m, rain_mm: filled(() => 1), air_degC: filled(() => -1) }))!;
    expect(snow.from).toBe('snow depth');
    // 5 cm at 100 kg/m3 are 5 mm of water; the depth sinks, the lid keeps its snow in frost.
    expect([23, 24, 120, 150].map((i) => snow.lid_mm[i])).toEqual([0, 5, 5, 0]);
    expect([23, 24, 149, 150].map((i) => snow.ground[i])).toEqual([0, 1, 1, 0]);
  });

  it('lets through less the more lies', () => {
    expect([0, 1, 5].map((mm) => Number(throughSnow(mm).toFixed(2)))).toEqual([1, 0.61, 0.08]);
  });
});

describe('spotLight in snow', () => {
  const snowy = weather({ snowDepth_m: filled((i) => (i < 120 ? 0 : 0.05)), air_degC: filled(() => -1) });
  const light = (spot: unknown, record: WeatherRecord = snowy) =>
    spotLight(record, GARDEN, spotParams(spotSchema.parse(spot), () => {})!);
  const noon = 8 * 24 + 11;

  it('darkens a lid under snow, and counts the hours', () => {
    const [clear, under] = [light({}, bare), light({})];
    expect(under.planeOfArray_W_m2[noon - 120]).toBe(clear.planeOfArray_W_m2[noon - 120]);
    expect(under.planeOfArray_W_m2[noon]! / clear.planeOfArray_W_m2[noon]!).toBeCloseTo(throughSnow(5), 9);
    expect(under.snow).toMatchObject({ from: 'snow depth', lid_h: 120, ground_h: 120 });
    expect(clear.snow).toBeUndefined();
  });

  it('leaves a lid clear that is brushed, steep, or the side of a jar', () => {
    for (const spot of [
      { snow: { on_lid: false } },
      { cell_tilt_deg: 60, cell_bearing_deg: 'S' },
      { cover: { part: 'side-lit-jar' } },
    ]) {
      expect(light(spot).snow).toMatchObject({ lid_h: 0 });
      expect(light(spot).sky_W_m2[noon]).toBeCloseTo(light(spot, bare).sky_W_m2[noon]!, 9);
    }
  });

  it('brightens a tilted cell by snow on the ground, in proportion to its albedo', () => {
    const upright = { cell_tilt_deg: 90, cell_bearing_deg: 'S', cover: { kind: 'none' } };
    const [grass, white] = [light(upright, bare), light(upright)];
    expect(white.reflected_W_m2[noon]! / grass.reflected_W_m2[noon]!).toBeCloseTo(0.6 / 0.2, 9);
  });
});
