import { expect, test } from 'vitest';
import { monthColumns } from '../../sim/output/columns.ts';
import { promisedLight, promisedTime, promiseWords } from '../../sim/output/words.ts';

test('a promise that was stated in other units has no more digits than it was stated with', () => {
  const words = promiseWords({ from: 'dusk', hours: 19 / 3, least_lumen: 1 / 3, tolerance_h: 1 / 6 });
  expect(words).toContain('at least 0.333 lm ');
  expect(words).toContain('from dusk for 380 min, every night; more than 10 min short of it');
});

test('a promise in hours and lumens is told as it is stated', () => {
  const words = promiseWords({ from: '16:45', hours: 5.75, least_lumen: 0.8, tolerance_h: 0.25 });
  expect(words).toContain('at least 0.8 lm ');
  expect(words).toContain('from 16:45 for 5.75 h, every night; more than 0.25 h short of it');
});

test('promised times from seconds to a whole day are exact to what is shown', () => {
  expect([0, 1 / 3600, 0.5, 67 / 60, 1399 / 60, 24].map(promisedTime)).toEqual([
    '0 h',
    '0.0167 min',
    '0.5 h',
    '67 min',
    '1399 min',
    '24 h',
  ]);
});

test('the column of lit hours names the promised light in as few digits', () => {
  expect(promisedLight(2 / 3)).toBe('0.667 lm');
  expect(monthColumns(2 / 3).map(({ tight }) => tight[1])).toContain('>=0.667 lm');
});
