import fc from 'fast-check';
import { expect, it } from 'vitest';
import { apparentAltitude } from '../../sim/sun/apparentAltitude.ts';
import { geometricAltitude } from '../../sim/sun/geometricAltitude.ts';

it('geometricAltitude(apparentAltitude(h)) is h, above and below the horizon', () => {
  fc.assert(
    fc.property(fc.double({ min: -90, max: 90, noNaN: true }), (h) => {
      // Limited by rounding of the iteration.
      expect(geometricAltitude(apparentAltitude(h))).toBeCloseTo(h, 8);
    }),
  );
});
