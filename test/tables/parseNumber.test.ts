import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDecimal } from '../../sim/tables/parseNumber.ts';

test('parseDecimal reads every number to the last bit as the language does', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      const text = String(value);
      expect(parseDecimal(text, false)).toBe(Number(text));
      expect(parseDecimal(text.replace('.', ','), true)).toBe(Number(text));
    }),
  );
  fc.assert(
    fc.property(fc.integer({ min: -9_999_999, max: 9_999_999 }), fc.nat(6), (whole, decimals) => {
      const text = (whole / 10 ** decimals).toFixed(decimals);
      expect(parseDecimal(text, false)).toBe(Number(text));
    }),
  );
});

test.each(['', '-', '+', '.', '1,2', '1.2.3', '0x10', '1e', 'nan', '1 2', '--1', '1-'])(
  'parseDecimal refuses "%s"',
  (text) => {
    expect(parseDecimal(text, false)).toBeNaN();
  },
);

test('parseDecimal takes one decimal mark alone', () => {
  expect(parseDecimal('12,5', true)).toBe(12.5);
  expect(parseDecimal('12.5', true)).toBeNaN();
  expect(parseDecimal('1,234,5', true)).toBeNaN();
});

test.each([
  ['1,012.5', false, 1012.5],
  ['-1.012,5', true, -1012.5],
  ['1 012', false, 1012],
  ["1'012'345.5", false, 1_012_345.5],
  ['1\u00a0012,5', true, 1012.5],
  ['1,012', false, Number.NaN],
  ['0,012.5', false, Number.NaN],
  ['1,12.5', false, Number.NaN],
  ['1 12', false, Number.NaN],
])('parseDecimal reads the parted thousands of %s', (text, comma, value) => {
  expect(parseDecimal(text, comma)).toBe(value);
});

test('parseDecimal takes one group behind the other mark for thousands only where it is told', () => {
  expect(parseDecimal('1,012', false, true)).toBe(1012);
  expect(parseDecimal('1.012', true, true)).toBe(1012);
});
