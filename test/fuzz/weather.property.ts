import fc from 'fast-check';
import { expect } from 'vitest';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import type { Property } from '../properties/Property.ts';
import { expectRefusal } from './refusal.ts';
import { damagedWeather } from './weatherDamage.ts';

const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const A_WEEK_H = 168;

/** Reads damaged bytes; returns whether they were taken. */
async function isTaken(bytes: Uint8Array): Promise<boolean> {
  try {
    const { record, report } = await importWeather([bytesSource({ name: 'damaged.csv', bytes })], PLACE);
    for (const column of record === undefined ? [] : [record.ghi_W_m2, record.air_degC])
      expect(column.every(Number.isFinite)).toBe(true);
    return record !== undefined || report !== undefined;
  } catch (error) {
    // A refusal may repeat what it was given.
    const given = Buffer.from(bytes);
    expectRefusal(error, `${given.toString('latin1')}${given.toString('utf16le')}`);
    return false;
  }
}

export const WEATHER_FUZZ: Property[] = [
  {
    title: 'a weather file, however damaged, is read or refused in words',
    runs: 800,
    check: (runs, seed = 20260103) =>
      fc.assert(
        fc.asyncProperty(damagedWeather(A_WEEK_H), async ({ bytes }) => {
          await isTaken(bytes);
        }),
        { numRuns: runs, seed },
      ),
  },
];
