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
  expect(parseDecimal('1.234,5', true)).toBeNaN();
});
