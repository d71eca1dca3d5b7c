import { Body, Equator, MakeTime, Observer, SiderealTime } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { sunOfDay } from '../../sim/sun/sunOfDay.ts';

describe('sunOfDay', () => {
  it('agrees with Meeus, Astronomical Algorithms, examples 25.a and 28.a (13 October 1992, 0h)', () => {
    const sun = sunOfDay(Date.UTC(1992, 9, 13));
    // Declination -7.78507 degrees; series good to 0.01.
    expect(Math.abs(sun.declination_deg + 7.78507)).toBeLessThan(0.01);
    // Equation of time 13 min 42.6 s (from memory); series good to 0.1 minutes.
    expect(Math.abs(sun.equationOfTime_min - 13.71)).toBeLessThan(0.1);
  });

  it('agrees with astronomy-engine from 1950 to 2050', () => {
    const observer = new Observer(0, 0, 0);
    for (let year = 1950; year <= 2050; year += 4) {
      for (let day = 0; day < 366; day += 13) {
        const ms = Date.UTC(year, 0, 1 + day, 12);
        const time = MakeTime(new Date(ms));
        const place = Equator(Body.Sun, time, observer, true, true);
        const equation = (((((SiderealTime(time) - place.ra) % 24) + 36) % 24) - 12) * 60;
        const sun = sunOfDay(ms);
        // Limited by the mean elements; parallax adds 0.003 degrees.
        expect(Math.abs(sun.declination_deg - place.dec)).toBeLessThan(0.02);
        expect(Math.abs(sun.equationOfTime_min - equation)).toBeLessThan(0.1);
      }
    }
  });
});
