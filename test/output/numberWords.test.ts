import { expect, test } from 'vitest';
import { aboutHours, countWord, hourWords, shareWords } from '../../sim/output/numberWords.ts';

test('counts are words up to twelve', () => {
  expect([0, 1, 12, 13].map(countWord)).toEqual(['no', 'one', 'twelve', '13']);
});

test('hours are words where they are whole or in quarters, and minutes below an hour', () => {
  expect([0.1, 0.25, 0.5, 0.75, 1].map(hourWords)).toEqual([
    'six minutes',
    'a quarter of an hour',
    'half an hour',
    'three quarters of an hour',
    'one hour',
  ]);
  expect([1.25, 5.75, 6, 6.4, 16].map(hourWords)).toEqual([
    'one and a quarter hours',
    'five and three quarter hours',
    'six hours',
    '6.4 hours',
    '16 hours',
  ]);
});

test('hours about so long are never none', () => {
  expect([0.001, 0.19, 0.2, 5.3].map(aboutHours)).toEqual([
    'about one minute',
    'about eleven minutes',
    'about a quarter of an hour',
    'about five and a quarter hours',
  ]);
});

test('shares take the nearest of few words', () => {
  expect([0, 0.06, 0.31, 0.6, 1, 7].map(shareWords)).toEqual([
    'hardly any of the usual',
    'about a tenth of the usual',
    'about a third of the usual',
    'about two thirds of the usual',
    'about as much as usual',
    'about as much as usual',
  ]);
});
