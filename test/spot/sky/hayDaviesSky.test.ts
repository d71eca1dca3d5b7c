import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hayDaviesSky } from '../../../sim/spot/sky/hayDaviesSky.ts';

const light = fc.double({ min: 0, max: 1200, noNaN: true });

it('hayDaviesSky keeps the diffuse light on the flat whole, and both parts at or above zero', () => {
  fc.assert(
    fc.property(light, light, fc.double({ min: 0, max: 1, noNaN: true }), (dhi, dni, cosZenith) => {
      const { circumsolar_W_m2, even_W_m2 } = hayDaviesSky(dhi, dni, 1361, cosZenith);
      expect(circumsolar_W_m2 * cosZenith + even_W_m2).toBeCloseTo(dhi, 9);
      expect(Math.min(circumsolar_W_m2, even_W_m2)).toBeGreaterThanOrEqual(-1e-9);
    }),
  );
});

it('hayDaviesSky does not let the ring around a sun on the horizon grow without bound', () => {
  expect(hayDaviesSky(50, 100, 1361, 1e-6).circumsolar_W_m2).toBeLessThan(50);
});
