import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closeComponents } from '../../../sim/spot/sky/closeComponents.ts';

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
