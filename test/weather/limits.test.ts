import { describe, expect, it } from 'vitest';
import { highestLight } from '../../sim/weather/limits.ts';

// Long and Dutton 2002, worked out by hand for 1406.5 W/m2 outside the air (perihelion, solar constant 1361).
// 0.1 W/m2: the last digit of the hand calculation.
const OUTSIDE_W_M2 = 1406.5;
describe('published limits', () => {
  it.each([
    [75, 'ghi', 516.7, 383.4],
    [75, 'dhi', 313.9, 238.3],
    [85, 'ghi', 212.9, 140.3],
    [85, 'dhi', 121.5, 86.4],
    [60, 'ghi', 1018.3, 784.6],
  ] as const)(
    'at zenith angle %i degrees of %s are %f and %f W/m2',
    (zenith_deg, quantity, possible, rare) => {
      expect(
        Math.abs(highestLight('possible', quantity, OUTSIDE_W_M2, 90 - zenith_deg) - possible),
      ).toBeLessThan(0.1);
      expect(Math.abs(highestLight('rare', quantity, OUTSIDE_W_M2, 90 - zenith_deg) - rare)).toBeLessThan(
        0.1,
      );
    },
  );

  it('of direct light are those of the publication too', () => {
    expect(Math.abs(highestLight('rare', 'dni', OUTSIDE_W_M2, 15) - 1029.6)).toBeLessThan(0.1);
    expect(Math.abs(highestLight('rare', 'dni', OUTSIDE_W_M2, 5) - 830.2)).toBeLessThan(0.1);
  });
});
