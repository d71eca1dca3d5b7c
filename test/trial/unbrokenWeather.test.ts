import { describe, expect, it } from 'vitest';
import { unbrokenWeather } from '../../sim/trial/unbrokenWeather.ts';
import { longRecord, NORTH, winterStart_ms } from '../climate/longRecords.ts';

const SITE = { ...NORTH, elevation_m: 0, timeZone: 'UTC', albedo: 0.2 };
const shadedIn = (shaded: (winter: number) => boolean) =>
  longRecord(12, 1, {
    shade: (clearness, winter, month) => (shaded(winter) && month === 12 ? 0.5 * clearness : clearness),
  });

describe('weather with a break in it', () => {
  it('counts from the break on, and says why and how to have all', () => {
    const { start_ms, origin } = unbrokenWeather(
      shadedIn((winter) => winter < 4),
      SITE,
      false,
    );
    // A day begins at midnight by the sun.
    expect(Math.abs(start_ms - winterStart_ms(4))).toBeLessThanOrEqual(3_600_000);
    expect(origin.options.break).toMatch(
      /^the brightest day of December has a clearness of 0\.\d\d to 0\.\d\d in 4 years before, 0\.\d\d to 0\.\d\d in 8 years after: the station came out of shade or moved, or its sensor is another$/,
    );
    expect(origin.options.counted).toBe('from 2005-07-01 on alone (--whole-record keeps all)');
  });

  it('counts whole where that is wanted, and is named all the same', () => {
    const record = shadedIn((winter) => winter < 4);
    const whole = unbrokenWeather(record, SITE, true);
    expect([whole.count, whole.start_ms]).toEqual([record.count, record.start_ms]);
    expect(whole.origin.options.break).toContain('brightest day of December');
    expect(whole.origin.options.counted).toBe('the whole record all the same (--whole-record)');
  });

  it('that ends in shade says how to have what lies before', () => {
    const { origin } = unbrokenWeather(
      shadedIn((winter) => winter >= 7),
      SITE,
      false,
    );
    expect(origin.options.break).toContain('the station came into shade');
    expect(origin.options.counted).toBe(
      'from 2008-07-01 on alone (--whole-record keeps all, --to 2008-06-30 what lies before)',
    );
  });

  it('is left as it is where there is none', () => {
    const record = longRecord(12, 1);
    expect(unbrokenWeather(record, SITE, false)).toBe(record);
  });
});
