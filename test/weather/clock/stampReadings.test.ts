import { describe, expect, it, test } from 'vitest';
import {
  claimText,
  clockText,
  explainingPairs,
  middleText,
  minutesText,
  readingsText,
  zoneTyped,
} from '../../../sim/weather/clock/stampReadings.ts';
import type { StampReading } from '../../../sim/weather/recognise/DetectedFormat.ts';

describe('explainingPairs', () => {
  it('explains half an hour of hourly data by an end mark, and by a start mark with a clock an hour ahead', () => {
    const pairs = explainingPairs(30.4, 3600);
    expect(pairs.map(({ marks, clockAhead_min }) => `${marks} ${clockAhead_min}`)).toEqual([
      'end 0',
      'start 60',
      'middle 30',
    ]);
    expect(pairs[0]!.likelihood).toBe('right');
  });

  it('puts whole hours before others, and of two clocks a day apart the one that is less off', () => {
    const pairs = explainingPairs(-600.1, 3600);
    expect(pairs.map(({ marks, clockAhead_min }) => `${marks} ${clockAhead_min}`)).toEqual([
      'middle -600',
      'middle 840',
      'start -570',
      'end -630',
      'end 810',
    ]);
  });

  it('takes half a day ahead and half a day behind for the same', () => {
    const ahead = explainingPairs(720, 600);
    const behind = explainingPairs(-720, 600);
    expect(ahead).toEqual(behind);
    expect(ahead.some(({ clockAhead_min }) => clockAhead_min === 720)).toBe(true);
    expect(ahead.some(({ clockAhead_min }) => clockAhead_min === -720)).toBe(true);
  });

  it('gives every pair within the tolerance and none beyond', () => {
    for (const offset of [-719, -352, -7, 0, 11, 345, 700]) {
      for (const step_s of [60, 600, 3600, 10800]) {
        for (const { marks, clockAhead_min, misfit_min } of explainingPairs(offset, step_s)) {
          const mark = marks === 'start' ? -step_s / 120 : marks === 'end' ? step_s / 120 : 0;
          const turns = (mark + clockAhead_min + misfit_min - offset) / 1440;
          expect(Math.abs(turns - Math.round(turns))).toBeLessThan(1e-9);
          expect(Math.abs(misfit_min)).toBeLessThanOrEqual(10);
        }
        expect(new Set(explainingPairs(offset, step_s).map(({ marks }) => marks)).size).toBe(3);
      }
    }
  });
});

test.each([
  [0, 'right clock'],
  [60, 'clock 60 minutes fast'],
  [-1, 'clock 1 minute slow'],
])('clockText(%i) says how far the clock is ahead', (ahead_min, text) => {
  expect(clockText(ahead_min)).toBe(text);
});

test.each([
  [0, 'UTC'],
  [60, '+01:00'],
  [-210, '-03:30'],
  [845, '+14:05'],
])('zoneTyped(%i) is what --zone takes', (offset_min, text) => {
  expect(zoneTyped(offset_min)).toBe(text);
});

test('minutesText rounds, and counts one minute as one', () => {
  expect([0, 0.6, 1.4, 2, 59.6].map(minutesText)).toEqual([
    '0 minutes',
    '1 minute',
    '1 minute',
    '2 minutes',
    '60 minutes',
  ]);
});

test('middleText tells the middle of an interval from its stamp', () => {
  expect(middleText(30)).toBe('the middle of an interval lies 30 minutes before its stamp');
  expect(middleText(-30)).toBe('the middle of an interval lies 30 minutes after its stamp');
  expect(middleText(0)).toBe('stamps are the middle of their intervals');
});

test('readingsText lists readings of the stamps, the first in full', () => {
  expect(
    readingsText([
      { marks: 'end', clockAhead_min: 0, likelihood: 'right', misfit_min: 0 },
      { marks: 'start', clockAhead_min: 60, likelihood: 'summer time', misfit_min: 0 },
    ]),
  ).toBe('at the end of the interval and a right clock, or at the start and a clock 60 minutes fast');
});

test('claimText says what nobody claims too', () => {
  const stamp = (zone: StampReading['zone'], label: StampReading['label']) => claimText({ zone, label });
  const words = '';
  expect(stamp({ kind: 'unstated', words }, { words })).toBe('no word on the zone, nor on what stamps mark');
  expect(stamp({ kind: 'fixed', offset_min: 330, words }, { label: 'end', words })).toBe(
    'UTC+5:30, stamps at the end of the interval',
  );
  expect(stamp({ kind: 'civil', zone: 'Europe/Berlin', words }, { words })).toBe(
    'Europe/Berlin, no word on what stamps mark',
  );
});
