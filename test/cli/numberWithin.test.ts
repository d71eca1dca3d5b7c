import { expect, test } from 'vitest';
import { numberWithin } from '../../sim/cli/numberWithin.ts';

test.each([
  ['number', 'digits, with a point before decimals'],
  ['A', 'a number of A, with a point before decimals'],
  ['deg', 'degrees, with a point before decimals'],
  ['share', 'a share, as 0.9 or "90 %"'],
])('what is no number in %s is mended by one of that unit', (unit, fix) => {
  expect(() => numberWithin('abc', '--it abc', 0, 1, unit)).toThrow(`Fix: ${fix}`);
});
