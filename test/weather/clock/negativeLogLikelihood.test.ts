import { describe, expect, it } from 'vitest';
import { haurwitzGlobal } from '../../../sim/sun/ineichenClearSky.ts';
import { clearDay } from '../../../sim/weather/clock/negativeLogLikelihood.ts';

describe('clearDay', () => {
  it('is the same before and after noon', () => {
    for (const latitude of [-60, 0, 35]) {
      const day = clearDay(latitude, 12, 60);
      // Limited by rounding of the running integral.
      for (let i = 0; i <= 288; i++) expect(Math.abs(day[i]! - day[288 - i]!)).toBeLessThan(1e-6);
    }
  });

  it('gives 4 W/m2 more than the clear sky at noon, and the twilight of a sun 6 degrees down at 3.4 lux', () => {
    const noon = clearDay(40, 0, 10)[144]!;
    // Ten minutes around noon, cosine 0.766: the mean lies 0.02 percent below the instant.
    expect(noon / (haurwitzGlobal(Math.cos((40 * Math.PI) / 180)) + 4)).toBeCloseTo(1, 3);
    // Midnight with the sun 6 degrees down: latitude 70, declination 14. 3.4 lux at 110 lm/W, from memory.
    const midnight = clearDay(70, 14, 10)[0]!;
    expect(midnight / (3.4 / 110)).toBeGreaterThan(0.8);
    expect(midnight / (3.4 / 110)).toBeLessThan(1.25);
  });

  it('keeps the sum of the day whatever the interval', () => {
    const sum = (step: number): number =>
      clearDay(48, -10, step)
        .subarray(1)
        .reduce((a, b) => a + b, 0);
    // Limited by the table's five minutes.
    expect(sum(60) / sum(10)).toBeCloseTo(1, 4);
    expect(sum(180) / sum(10)).toBeCloseTo(1, 4);
  });
});
