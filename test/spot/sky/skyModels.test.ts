import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hayDaviesSky, perezSky } from '../../../sim/spot/sky/skyModels.ts';

const light = fc.double({ min: 0, max: 1200, noNaN: true });

it('hayDaviesSky keeps the diffuse light on the flat whole, and both parts at or above zero', () => {
  fc.assert(
    fc.property(light, light, fc.double({ min: 0, max: 1, noNaN: true }), (dhi, dni, cosZenith) => {
      const { circumsolar_W_m2, isotropic_W_m2 } = hayDaviesSky(dhi, dni, 1361, cosZenith);
      expect(circumsolar_W_m2 * cosZenith + isotropic_W_m2).toBeCloseTo(dhi, 9);
      expect(Math.min(circumsolar_W_m2, isotropic_W_m2)).toBeGreaterThanOrEqual(-1e-9);
    }),
  );
});

it('hayDaviesSky does not let the ring around a sun on the horizon grow without bound', () => {
  expect(hayDaviesSky(50, 100, 1361, 1e-6).circumsolar_W_m2).toBeLessThan(50);
});

describe('perezSky', () => {
  it('keeps the diffuse light of the flat ground, the ring never negative', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (dhi, dni, cosZenith) => {
          const { circumsolar_W_m2, isotropic_W_m2, band_W_m2 } = perezSky(dhi, dni, 1361, cosZenith);
          expect(circumsolar_W_m2 * cosZenith + isotropic_W_m2).toBeCloseTo(dhi, 9);
          expect(circumsolar_W_m2).toBeGreaterThanOrEqual(0);
          expect(isotropic_W_m2).toBeGreaterThanOrEqual(-1e-9);
          expect(Number.isFinite(band_W_m2)).toBe(true);
        },
      ),
    );
  });

  it('has next to no ring under an overcast sky', () => {
    const { circumsolar_W_m2 } = perezSky(100, 0, 1361, 0.5);
    expect(circumsolar_W_m2 * 0.5).toBeLessThan(8);
  });

  it('agrees with the other anisotropic model on a south slope in clear weather within a tenth', () => {
    // Sun at 30 degrees, 700 W/m2 direct, 90 diffuse; slope of 40 degrees facing the sun: incidence 20 degrees.
    const on = (parts: ReturnType<typeof perezSky>) =>
      parts.circumsolar_W_m2 * Math.cos((20 * Math.PI) / 180) +
      (parts.isotropic_W_m2 * (1 + Math.cos((40 * Math.PI) / 180))) / 2 +
      parts.band_W_m2 * Math.sin((40 * Math.PI) / 180);
    const total = (parts: ReturnType<typeof perezSky>) => 700 * Math.cos((20 * Math.PI) / 180) + on(parts);
    const [perez, hayDavies] = [total(perezSky(90, 700, 1361, 0.5)), total(hayDaviesSky(90, 700, 1361, 0.5))];
    expect(Math.abs(perez / hayDavies - 1)).toBeLessThan(0.1);
    expect(perez).not.toBe(hayDavies);
  });
});
