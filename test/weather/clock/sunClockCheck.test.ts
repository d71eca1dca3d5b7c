import { describe, expect, it } from 'vitest';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { inventedSky } from './inventedSky.ts';
import { itFindsPatterns, YEAR } from './itFindsPatterns.ts';
import { itHoldsTheTruth } from './itHoldsTheTruth.ts';

describe('sunClockCheck', () => {
  // Other skies and latitudes, true solar time and wrong places: the slow test.
  itFindsPatterns('clear', 52);
  itHoldsTheTruth([3, 6], 3600);

  it('shows first and last light near their time at the right offset, and no light with the sun down', () => {
    const { evidence } = sunClockCheck(
      inventedSky({ ...YEAR, seed: 2, climate: 'mixed', latitude_deg: 50, offset_min: 30 }),
    );
    expect(evidence.clearSkyFit).toBeGreaterThan(0.9);
    expect(evidence.lightWithSunDown).toBeLessThan(0.002);
    expect(evidence.darkWithSunUp).toBeLessThan(0.002);
    // Hourly grain: the mean over a year of whole steps.
    expect(Math.abs(evidence.firstLightLate_min - evidence.lastLightEarly_min)).toBeLessThan(10);
  });
});
