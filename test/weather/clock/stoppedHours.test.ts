import { describe, expect, it } from 'vitest';
import { stoppedHours } from '../../../sim/weather/clock/stoppedHours.ts';

/** Days of hours, alike: light from 6 to 18 o'clock, the last and first hour as said, on some of the days. */
function days(count: number, { last = 50, first = 50, brightDays = count, stray = 0 } = {}): Float64Array {
  return Float64Array.from({ length: count * 24 }, (_, i) => {
    const day = Math.floor(i / 24);
    const hour = i % 24;
    if (hour === 21 && day < stray) return 80;
    if (hour < 6 || hour > 17) return 0;
    if (hour === 17) return day < brightDays ? last : 50;
    if (hour === 6) return day < brightDays ? first : 50;
    return 400;
  });
}
const sidesOf = (ghi: Float64Array) => stoppedHours(ghi, 24, 4).sides;

describe('stoppedHours', () => {
  it('calls no sunset a stop, but light no sunset could lose within an hour', () => {
    // A clear sunset at the equator has some 110 W/m2 in its last hour.
    expect(sidesOf(days(100, { last: 120 }))).toEqual([]);
    expect(sidesOf(days(100, { last: 145 }))).toEqual(['evening']);
    expect(sidesOf(days(100, { first: 145 }))).toEqual(['morning']);
  });

  it('wants such light on a twentieth of the days, at least three', () => {
    expect(sidesOf(days(100, { last: 300, brightDays: 5 }))).toEqual(['evening']);
    expect(sidesOf(days(100, { last: 300, brightDays: 4 }))).toEqual([]);
    expect(sidesOf(days(20, { last: 300, brightDays: 3 }))).toEqual(['evening']);
    expect(sidesOf(days(20, { last: 300, brightDays: 2 }))).toEqual([]);
  });

  it('passes over a stray light in the dark, on a hundredth of the days', () => {
    const silentAt21 = (stray: number) => stoppedHours(days(100, { last: 300, stray }), 24, 4).silent[21];
    expect(silentAt21(1)).toBe(1);
    expect(silentAt21(2)).toBe(0);
  });

  it('silences the last hour with light and the first half of the night', () => {
    const { silent } = stoppedHours(days(100, { last: 300 }), 24, 4);
    expect(Array.from(silent.keys()).filter((hour) => silent[hour] === 1)).toEqual([
      17, 18, 19, 20, 21, 22, 23,
    ]);
  });

  it('finds nothing to say of a record that is dark throughout', () => {
    expect(sidesOf(new Float64Array(240))).toEqual([]);
  });
});
