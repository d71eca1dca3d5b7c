import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asin } from '../../../sim/common/elementary/atan2.ts';
import { skyCalendar } from '../../../sim/spot/sky/SkyCalendar.ts';
import { closeComponents, skyColumns } from '../../../sim/spot/sky/skyColumns.ts';
import { ineichenClearSky } from '../../../sim/sun/ineichenClearSky.ts';
import { GARDEN, inventedHours } from '../inventedHours.ts';

const weather = inventedHours();
const calendar = skyCalendar(weather, GARDEN);
const { sun } = calendar;
const sky = skyColumns(weather, calendar);

describe('skyColumns', () => {
  it('splits every hour so that diffuse and beam add up to the global value', () => {
    for (let i = 0; i < weather.count; i++) {
      const sum = sky.dhi_W_m2[i]! + sky.dni_W_m2[i]! * sun.upCosZenith[i]!;
      expect(Math.abs(sum - weather.ghi_W_m2[i]!)).toBeLessThan(1e-9);
      expect(Math.min(sky.dhi_W_m2[i]!, sky.dni_W_m2[i]!)).toBeGreaterThanOrEqual(0);
    }
  });

  it('never lets the split make more beam than the clearest sky has, and counts the hours it cut', () => {
    let atCap = 0;
    for (let i = 0; i < weather.count; i++) {
      const altitude_deg = (asin(sun.upCosZenith[i]!) * 180) / Math.PI;
      const clear = ineichenClearSky(altitude_deg, sun.extraterrestrial_W_m2[i]!, 20, 2).dni_W_m2;
      const most = clear * sun.upShare[i]!;
      expect(sky.dni_W_m2[i]!).toBeLessThanOrEqual(most);
      if (most > 0 && sky.dni_W_m2[i] === most) atCap++;
    }
    expect(sky.cappedHours).toBe(atCap);
    expect(atCap).toBeGreaterThan(0);
    expect(atCap).toBeLessThan(weather.count / 10);
  });

  it('marks what was split and closed, and leaves the night as it was measured', () => {
    for (let i = 0; i < weather.count; i++) expect(sky.mark[i]).toBe(sun.upShare[i]! > 0 ? 2 : 0);
    const closed = skyColumns({ ...weather, dhi_W_m2: sky.dhi_W_m2 }, calendar);
    for (let i = 0; i < weather.count; i++) expect(closed.mark[i]).toBe(sun.upShare[i]! > 0 ? 1 : 0);
  });

  it('closes the beam from global and diffuse light to what the split had made', () => {
    const closed = skyColumns({ ...weather, dhi_W_m2: sky.dhi_W_m2 }, calendar);
    for (let i = 0; i < weather.count; i++) {
      // In the last minutes of sun the division by the cosine enlarges rounding.
      expect(Math.abs(closed.dni_W_m2[i]! - sky.dni_W_m2[i]!)).toBeLessThan(1e-6);
    }
  });

  it('lets measured direct and diffuse light stand', () => {
    const measured = skyColumns({ ...weather, dhi_W_m2: sky.dhi_W_m2, dni_W_m2: sky.dni_W_m2 }, calendar);
    expect(measured.dni_W_m2).toEqual(sky.dni_W_m2);
    expect(measured.cappedHours).toBe(0);
    expect(Math.max(...measured.mark)).toBe(0);
  });

  it("counts a sensor's offset below zero as dark", () => {
    const offset = { ...weather, ghi_W_m2: weather.ghi_W_m2.map((value) => (value === 0 ? -1.5 : value)) };
    expect(skyColumns(offset, calendar).ghi_W_m2).toEqual(sky.ghi_W_m2);
  });
});

const light = fc.double({ min: 0, max: 1200, noNaN: true });
const cosine = fc.double({ min: 0.01, max: 1, noNaN: true });

describe('closeComponents', () => {
  it('gives back the third component of a sky that is whole', () => {
    fc.assert(
      fc.property(light, light, cosine, (dni_W_m2, dhi_W_m2, cosZenith) => {
        const whole = { ghi_W_m2: dhi_W_m2 + dni_W_m2 * cosZenith, dni_W_m2, dhi_W_m2 };
        for (const key of ['ghi_W_m2', 'dni_W_m2', 'dhi_W_m2'] as const) {
          const closed = closeComponents({ ...whole, [key]: Number.NaN }, cosZenith);
          // The division by the cosine enlarges rounding.
          expect(Math.abs(closed[key] - whole[key])).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it('keeps the global value and gives nothing negative when two readings contradict each other', () => {
    const dullSun = closeComponents({ ghi_W_m2: 100, dni_W_m2: 900, dhi_W_m2: Number.NaN }, 0.5);
    expect(dullSun).toEqual({ ghi_W_m2: 100, dni_W_m2: 200, dhi_W_m2: 0 });
    const brightSky = closeComponents({ ghi_W_m2: 100, dni_W_m2: Number.NaN, dhi_W_m2: 120 }, 0.5);
    expect(brightSky).toEqual({ ghi_W_m2: 100, dni_W_m2: 0, dhi_W_m2: 100 });
  });
});
