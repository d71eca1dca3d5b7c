import { describe, expect, test } from 'vitest';
import { nightsCsv } from '../../sim/output/nightsCsv.ts';
import { csvRecords, darkNight, smallNight, smallTrial } from './smallRun.ts';

/** The columns in the order every release keeps. */
const NIGHT_ORDER =
  'spot,lamp,winter,night,complete,dusk_utc,dawn_utc,promised_h,lit_h,short_h,dim_h,out_h,lit_beyond_promise_h,outcome,cause,' +
  'first_short_local,light_on_cell_Wh_m2,highest_reachable_V,capacitor_dusk_V,capacitor_lowest_V,capacitor_dawn_V,reserve_dawn_J,' +
  'light_given_lm_h,above_rated_h,snow_on_lid_h,filled_weather_h';

describe('nights.csv', () => {
  test('keeps its columns in order, new ones at the end', () => {
    const [heading = ''] = nightsCsv([smallTrial()], 'Europe/Berlin').split('\n');
    expect(heading).toBe(`${NIGHT_ORDER},above_half_h,above_fifth_h`);
  });

  test('has a row per trial and night, the trials in order', () => {
    const trials = [smallTrial(), smallTrial({ spot: 'north-side' })];
    const rows = csvRecords(nightsCsv(trials, 'Europe/Berlin'));
    expect(rows.map((row) => `${row.spot} ${row.night}`)).toEqual([
      'lawn 2025-12-20',
      'lawn 2025-12-21',
      'north-side 2025-12-20',
      'north-side 2025-12-21',
    ]);
  });

  test('gives dusk in UTC and the first short instant in civil time with its offset', () => {
    const [row] = csvRecords(
      nightsCsv([smallTrial({ nights: [darkNight('2025-12-21', 2)] })], 'Europe/Berlin'),
    );
    expect(row).toMatchObject({
      dusk_utc: '2025-12-21T15:40:12Z',
      first_short_local: '2025-12-21T20:10:00+01:00',
      cause: 'ran-empty',
      outcome: 'failed',
      complete: '1',
    });
  });

  test('leaves a cell empty where a value does not apply, and lit and dark add up to promised', () => {
    const white = smallNight('2025-06-21', {
      dusk_ms: Number.NaN,
      dawn_ms: Number.NaN,
      capacitorDusk_V: Number.NaN,
      outcome: 'nothing-promised',
      complete: false,
    });
    const third = smallNight('2025-12-21', { lit_h: 6 - 1 / 3, short_h: 1 / 3 });
    const [first, second] = csvRecords(nightsCsv([smallTrial({ nights: [white, third] })], 'Europe/Berlin'));
    expect(first).toMatchObject({
      dusk_utc: '',
      dawn_utc: '',
      first_short_local: '',
      capacitor_dusk_V: '',
      complete: '0',
    });
    // Each of the three is rounded to half of 1e-4.
    const gap = Number(second!.lit_h) + Number(second!.short_h) - Number(second!.promised_h);
    expect(Math.abs(gap)).toBeLessThanOrEqual(1.5e-4);
  });
});
