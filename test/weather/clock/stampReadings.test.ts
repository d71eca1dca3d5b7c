import { describe, expect, it } from 'vitest';
import { explainingPairs } from '../../../sim/weather/clock/stampReadings.ts';

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

  it('puts civil time of the site before other whole hours', () => {
    const pairs = explainingPairs(150, 3600, { siteZone_min: 60 });
    expect(pairs[0]).toMatchObject({
      marks: 'end',
      clockAhead_min: 120,
      likelihood: 'civil time of the site',
    });
    expect(pairs.find(({ marks }) => marks === 'start')?.likelihood).toBe('whole hours');
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
