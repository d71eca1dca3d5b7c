import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fixed } from '../../sim/common/csvText.ts';
import { CsvBytes } from '../../sim/output/CsvBytes.ts';

function written(value: number, decimals: number): string {
  const text = new CsvBytes(400);
  text.number(value, decimals);
  return Buffer.from(text.take()).toString('utf8');
}

/** Halves of the last decimal and their neighbours, where rounding the product would go the other way. */
const tie = fc
  .tuple(fc.integer({ min: -(2 ** 32), max: 2 ** 32 }), fc.nat(6), fc.integer({ min: -2, max: 2 }))
  .map(([half, decimals, ulps]) => {
    const value = (half + 0.5) / 10 ** decimals;
    return value + ulps * Number.EPSILON * value;
  });

test('number writes what fixed writes, for any number and any decimals', () => {
  const value = fc.oneof(
    fc.double(),
    fc.double({ min: -3e4, max: 3e4 }),
    fc.double({ min: -1e-5, max: 1e-5 }),
    tie,
  );
  fc.assert(
    fc.property(value, fc.nat(6), (value, decimals) => {
      expect(written(value, decimals)).toBe(`,${fixed(value, decimals)}`);
    }),
    { numRuns: 20_000 },
  );
});

test('number writes ties, negative zero, what does not apply and the largest as fixed does', () => {
  const values = [
    0, -0, 0.5, -0.5, 1.005, 2.675, 1.45, 8.345, 0.125, -0.004, 0.0005, 214748.36475, 1e21, 1e300,
  ];
  for (const value of [...values, 2 ** 31 - 1, 2 ** 31, Number.NaN, Infinity, -Infinity, Number.MIN_VALUE]) {
    for (let decimals = 0; decimals <= 6; decimals++)
      expect(written(value, decimals), `${value}`).toBe(`,${fixed(value, decimals)}`);
  }
});

test('take hands over what was written and makes room again', () => {
  const text = new CsvBytes(10);
  text.text('a,b');
  text.twoDigits(7);
  expect(Buffer.from(text.take()).toString()).toBe('a,b07');
  text.twoDigits(42);
  expect(Buffer.from(text.take()).toString()).toBe('42');
});
