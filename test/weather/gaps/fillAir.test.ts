import { describe, expect, it } from 'vitest';
import { fillAir, usualAir } from '../../../sim/weather/gaps/fillAir.ts';
import { GARDEN, gardenYear, YEAR_2021_MS } from '../quality/madeRecord.ts';

const HOUR_MS = 3_600_000;

function monthMean(month: number, latitude_deg: number, longitude_deg: number): number {
  let sum = 0;
  for (let h = 0; h < 720; h++) sum += usualAir(Date.UTC(2021, month - 1, 1, h), latitude_deg, longitude_deg);
  return sum / 720;
}

describe('usualAir', () => {
  // Monthly normals of national weather services for low places, rounded, from memory. 5 K: sea and inland differ by it.
  it.each([
    ['near 38 N, Mediterranean coast', 38, 24, 10, 28],
    ['near 45 N, plain', 45, 10, 3, 25],
    ['near 51 N, maritime', 51.5, 0, 5.5, 18.5],
    ['near 52 N, between sea and inland', 52.5, 13.4, 1, 19.5],
    ['near 60 N, coast', 60, 25, -4, 18],
  ])('%s', (_, latitude_deg, longitude_deg, january, july) => {
    expect(Math.abs(monthMean(1, latitude_deg, longitude_deg) - january)).toBeLessThan(5);
    expect(Math.abs(monthMean(7, latitude_deg, longitude_deg) - july)).toBeLessThan(5);
  });

  it('near 38 S has its summer in January', () => {
    expect(Math.abs(monthMean(1, -38, 145) - 21)).toBeLessThan(5);
    expect(Math.abs(monthMean(7, -38, 145) - 10)).toBeLessThan(5);
  });

  it('is warmest in the afternoon of the place', () => {
    for (const longitude_deg of [-120, 0, 150]) {
      const day = Array.from({ length: 24 }, (_, h) => usualAir(Date.UTC(2021, 6, 1, h), 54, longitude_deg));
      const solar = (((day.indexOf(Math.max(...day)) + longitude_deg / 15) % 24) + 24) % 24;
      expect(solar).toBeGreaterThanOrEqual(14);
      expect(solar).toBeLessThanOrEqual(15);
    }
  });
});

describe('fillAir', () => {
  it('stands in for a missing column, and says so', () => {
    const air = fillAir({ start_ms: YEAR_2021_MS, count: 24 }, GARDEN);
    expect(air.words).toBe('stand-in: the usual temperature at 54 degrees north in every hour');
    expect(air.air_degC[12]).toBe(usualAir(YEAR_2021_MS + 12.5 * HOUR_MS, 54, 10));
    expect(fillAir({ start_ms: YEAR_2021_MS, count: 24 }, GARDEN, 7)).toMatchObject({
      words: 'stand-in: 7 degC in every hour',
      standIn_h: 24,
    });
  });

  it('bridges short gaps by a straight line and longer ones by the usual course', () => {
    const record = gardenYear(31);
    record.air_degC.fill(Number.NaN, 100, 103);
    record.air_degC.fill(Number.NaN, 1000, 1048);
    record.air_degC.fill(Number.NaN, 0, 2);
    const air = fillAir(record, GARDEN);
    const [before, after] = [record.air_degC[99]!, record.air_degC[103]!];
    expect(air.air_degC[101]).toBeCloseTo((before + after) / 2, 9);
    const departure = (i: number) => air.air_degC[i]! - usualAir(YEAR_2021_MS + (i + 0.5) * HOUR_MS, 54, 10);
    expect(departure(1020)).toBeCloseTo(departure(999) + ((departure(1048) - departure(999)) * 21) / 49, 9);
    expect(air).toMatchObject({ filled_h: 51, standIn_h: 2 });
    expect(air.words).toBe(
      '51 hours filled between their neighbours, the usual temperature at 54 degrees north stands in for 2 hours',
    );
  });
});
