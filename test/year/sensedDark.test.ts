import { describe, expect, it } from 'vitest';
import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { solarPosition } from '../../sim/sun/solarPosition.ts';
import { twilightIlluminance_lx } from '../../sim/sun/twilightIlluminance_lx.ts';
import { sensedDark } from '../../sim/year/sensedDark.ts';
import { simulateYear } from '../../sim/year/simulateYear.ts';
import { makeLamp, RAW_CELL, RAW_DIODE, RAW_LED } from '../lamp/makeLamp.ts';
import { dummyLight } from './dummyLight.ts';

const LATITUDE_DEG = 54;
const LONGITUDE_DEG = 10;
const START = '2025-12-20T00:00:00Z';
const HOUR_MS = 3_600_000;

/** Three December days: the given light while the sun is up, the true sun; `share` of the open sky's light arrives. */
function december(light_W_m2: (hour: number) => number, share = 1): SpotLight {
  const hours = Array.from({ length: 72 }, (_, i) => i);
  const altitude = (hour: number) =>
    solarPosition(Date.parse(START) + (hour + 0.5) * HOUR_MS, LATITUDE_DEG, LONGITUDE_DEG).altitude_deg;
  const lit = hours.map((hour) => (altitude(hour) > 0 ? light_W_m2(hour) : 0));
  const light = dummyLight(
    START,
    lit.map((value) => value * share),
    5,
  );
  light.sunAltitude_deg.set(hours.map(altitude));
  light.ghi_W_m2.set(lit);
  light.dhi_W_m2.set(lit);
  light.sky_W_m2.set(lit.map((value) => value * share));
  return light;
}

const lamp = makeLamp({
  cell: RAW_CELL,
  diode: RAW_DIODE,
  capacitor: { raw: { capacitance_F: 500 }, rated_V: 2.7 },
  driver: { kind: 'power', power_mW: 10, cutoff_V: 0.9 },
  led: RAW_LED,
  jar: { fixed_degC: 5 },
  schedule: { on: 'dark', sense: { by: 'lux', night_below_lux: 10, day_above_lux: 20 } },
});
const jar_degC = new Float64Array(72).fill(5);
const LUX = { by: 'lux', night_below_lux: 10, day_above_lux: 20 } as const;

describe('sensedDark', () => {
  it('finds one stretch a night, from after sunset to before sunrise', () => {
    const nights = sensedDark(
      december(() => 80),
      jar_degC,
      lamp.cell,
      LUX,
      0,
    );
    // 21 December at 54 N, 10 E: sunset 15:02 UTC, sunrise 07:34 UTC, 6 degrees below 42 minutes away (solarPosition).
    expect(nights).toHaveLength(4);
    const evening_h = nights[1]!.from_s / 3600;
    const morning_h = nights[1]!.to_s / 3600 - 24;
    expect(evening_h).toBeGreaterThan(15.05);
    expect(evening_h).toBeLessThan(15.75);
    expect(morning_h).toBeGreaterThan(6.85);
    expect(morning_h).toBeLessThan(7.55);
  });

  it('meets the instant at which the published twilight curve falls to the threshold, to 10 minutes', () => {
    // Under a clear December sky the curve itself reaches 10 lx; the sun is followed minute by minute.
    const light = december(() => 1e4);
    const got_s = sensedDark(light, jar_degC, lamp.cell, LUX, 0)[1]!.from_s;
    let minute = 15 * 60;
    const illuminance_lx = () => {
      const sun = solarPosition(Date.parse(START) + minute * 60_000, LATITUDE_DEG, LONGITUDE_DEG);
      // Below the horizon the position keeps half a degree of refraction.
      return twilightIlluminance_lx(sun.altitude_deg - 0.48) * 1.2;
    };
    while (illuminance_lx() > 10) minute++;
    expect(Math.abs(got_s / 60 - minute)).toBeLessThan(10);
  });

  it('makes the night of a shaded spot longer', () => {
    const hours = (share: number) =>
      sensedDark(
        december(() => 80, share),
        jar_degC,
        lamp.cell,
        LUX,
        0,
      ).reduce((sum, { from_s, to_s }) => sum + (to_s - from_s) / 3600, 0);
    expect(hours(0.2)).toBeGreaterThan(hours(1) + 0.4);
  });

  it('takes a dull noon for dark where the threshold says so', () => {
    const dull = december((hour) => (hour >= 35 && hour < 37 ? 0.05 : 80));
    const stretches = sensedDark(dull, jar_degC, lamp.cell, LUX, 0);
    expect(stretches.some(({ from_s, to_s }) => from_s === 35 * 3600 && to_s === 37 * 3600)).toBe(true);
  });

  it('never finds it dark beside a street lamp brighter than the threshold', () => {
    expect(
      sensedDark(
        december(() => 80),
        jar_degC,
        lamp.cell,
        LUX,
        30,
      ),
    ).toEqual([]);
  });

  it('by the voltage of the unloaded cell, switches where that cell has that open-circuit voltage', () => {
    const dim_W_m2 = 3;
    const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    path.setConditions(dim_W_m2, 5);
    const open_V = path.openCircuit_V;
    const stretches = (night_below_V: number) =>
      sensedDark(
        december((hour) => (hour >= 35 && hour < 37 ? dim_W_m2 : 80)),
        jar_degC,
        lamp.cell,
        { by: 'cell-voltage', night_below_V, day_above_V: night_below_V + 0.05 },
        0,
      );
    const atNoon = ({ from_s, to_s }: { from_s: number; to_s: number }) =>
      from_s <= 36 * 3600 && to_s >= 36 * 3600;
    expect(stretches(open_V + 0.01).some(atNoon)).toBe(true);
    expect(stretches(open_V - 0.01).some(atNoon)).toBe(false);
  });
});

describe('simulateYear with a lamp that senses the dark', () => {
  it('lights the LED for the sensed hours and notes what lies beyond the promise', () => {
    const light = december(() => 80);
    const year = simulateYear(lamp, light, {
      timeZone: 'UTC',
      promise: { from: 'dusk', hours: 2, least_lumen: 0.1, tolerance_h: 0.25 },
      start: { capacitor_V: 2.4 },
    });
    const shining_s = year.columns.shining_s.reduce((sum, value) => sum + value, 0);
    const sensed_s = sensedDark(light, jar_degC, lamp.cell, LUX, 0).reduce(
      (sum, { from_s, to_s }) => sum + to_s - from_s,
      0,
    );
    const stopped = year.nights.shortBy_s[1]!.some((short_s) => short_s > 0);
    expect(stopped).toBe(false);
    expect(Math.abs(shining_s - sensed_s)).toBeLessThan(1);
    expect(year.nights.litBeyondPromise_s.some((beyond_s) => beyond_s > 3600)).toBe(true);
  });
});
