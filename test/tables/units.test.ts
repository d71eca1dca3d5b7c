import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromCanonical, toCanonical, UNITS, type UnitName } from '../../sim/tables/units.ts';

// Factors of NIST Special Publication 811, appendix B (from memory); each follows from the definition of the unit.
test.each<[number, UnitName, number]>([
  [100, 'W/m2', 100],
  [0.1, 'kW/m2', 100],
  [10, 'mW/cm2', 100],
  [10_000, 'uW/cm2', 100],
  [100_000, 'mW/m2', 100],
  [1000, '0.1 W/m2', 100],
  [100, 'Wh/m2', 100],
  [0.1, 'kWh/m2', 100],
  [360_000, 'J/m2', 100],
  [36, 'J/cm2', 100],
  [360, 'kJ/m2', 100],
  [0.36, 'MJ/m2', 100],
  [360 / 41.84, 'langley', 100],
  [-40, 'degF', -40],
  [212, 'degF', 100],
  [273.15, 'K', 0],
  [-25, '0.1 degC', -2.5],
  [12, 'cm', 0.12],
  [5, 'mm', 0.005],
  [1, 'in', 0.0254],
  [1, 'ft', 0.3048],
  [3, 'mm/h', 0.003],
  [3, 'kg/m2', 0.003],
  [36, 'km/h', 10],
  [3600, 'kn', 1852],
  [1, 'mph', 0.44704],
  [55, '%', 0.55],
])('toCanonical takes %d %s over an hour as %d', (value, unit, expected) => {
  // two roundings
  expect(toCanonical(value, unit, 3600)).toBeCloseTo(expected, 12);
});

test('toCanonical divides sums by the step, leaves means alone and multiplies rates', () => {
  expect(toCanonical(36, 'J/cm2', 600)).toBeCloseTo(600, 12);
  expect(toCanonical(36, 'W/m2', 600)).toBe(36);
  expect(toCanonical(6, 'mm/h', 600)).toBeCloseTo(0.001, 15);
});

test('fromCanonical undoes toCanonical for every unit and step', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...(Object.keys(UNITS) as UnitName[])),
      fc.double({ min: -1e4, max: 1e4, noNaN: true }),
      fc.integer({ min: 10, max: 10_800 }),
      (unit, value, step_s) => {
        const back = fromCanonical(toCanonical(value, unit, step_s), unit, step_s);
        // a few roundings of the value, and of the shift of degF and K
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * (Math.abs(value) + 500));
      },
    ),
  );
});
