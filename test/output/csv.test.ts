import { describe, expect, test } from 'vitest';
import { hoursCsv, nightsCsv } from '../../sim/output/csv.ts';
import { csvRecords, darkNight, smallLight, smallNight, smallTrial } from './smallRun.ts';

/** The columns in the order every release keeps. */
const NIGHT_ORDER =
  'spot,lamp,winter,night,complete,dusk_utc,dawn_utc,promised_h,lit_h,short_h,lit_beyond_promise_h,outcome,cause,' +
  'first_short_local,light_on_cell_Wh_m2,highest_reachable_V,capacitor_dusk_V,capacitor_lowest_V,capacitor_dawn_V,reserve_dawn_J,' +
  'light_given_lm_h,above_rated_h,filled_weather_h';

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

const HOUR_ORDER =
  'spot,lamp,start_utc,start_local,ghi_W_m2,dni_W_m2,dhi_W_m2,air_degC,weather_mark,sun_altitude_deg,' +
  'light_on_cell_W_m2,beam_on_cell_W_m2,sky_on_cell_W_m2,reflected_on_cell_W_m2,jar_degC,reachable_V,capacitor_end_V,' +
  'capacitor_lowest_V,charge_in_C,charge_out_C,cell_best_J,cell_J,diode_loss_J,resistance_loss_J,delayed_branch_loss_J,' +
  'leakage_J,limiter_J,standby_J,driver_loss_J,led_J,stored_change_J,residual_J,promised_s,lit_s,short_s,' +
  'led_mean_mA,light_given_lm_h';

const LOSSES = [
  'diode_loss_J',
  'resistance_loss_J',
  'delayed_branch_loss_J',
  'leakage_J',
  'limiter_J',
  'standby_J',
  'driver_loss_J',
];

function textOf(...trials: Parameters<typeof hoursCsv>[0]): string {
  return [...hoursCsv(trials, 'Europe/Berlin')].join('');
}

describe('hours.csv', () => {
  test('keeps its columns in order', () => {
    expect(textOf(smallTrial()).split('\n')[0]).toBe(HOUR_ORDER);
  });

  test('balances hour by hour: cell energy is the losses, the LED, the change in the capacitor and the residual', () => {
    const rows = csvRecords(textOf(smallTrial()));
    expect(rows).toHaveLength(48);
    for (const row of rows) {
      const value = (name: string) => Number(row[name]);
      const parts = LOSSES.reduce((sum, name) => sum + value(name), 0);
      const gap = value('cell_J') - parts - value('led_J') - value('stored_change_J') - value('residual_J');
      // Ten cells rounded to half of 1e-4 J, the residual to half of 1e-6 J.
      expect(Math.abs(gap)).toBeLessThanOrEqual(10 * 0.5e-4 + 0.5e-6);
    }
  });

  test('gives the mean current of the LED over the time it shone, and nothing where it did not', () => {
    const [even, odd] = csvRecords(textOf(smallTrial()));
    // 9 C in 1800 s.
    expect(even!.led_mean_mA).toBe('5.0000');
    expect(odd!.led_mean_mA).toBe('');
  });

  test('gives stamps in UTC and civil time, through a change of the clocks', () => {
    const start_ms = Date.parse('2025-03-30T00:00:00Z');
    const rows = csvRecords(textOf(smallTrial({ light: smallLight(48, start_ms) })));
    expect(rows[0]).toMatchObject({
      start_utc: '2025-03-30T00:00:00Z',
      start_local: '2025-03-30T01:00:00+01:00',
    });
    expect(rows[1]!.start_local).toBe('2025-03-30T03:00:00+02:00');
    expect(rows[24]!.start_local).toBe('2025-03-31T02:00:00+02:00');
  });

  test('says what the weather rests on, and leaves the sky empty where light was logged on the cell', () => {
    const logged = smallTrial({ light: smallLight(48, 0, true) });
    const [sky, cell] = [csvRecords(textOf(smallTrial()))[0]!, csvRecords(textOf(logged))[0]!];
    expect(sky).toMatchObject({ weather_mark: 'split', ghi_W_m2: '80.00' });
    expect(cell).toMatchObject({ ghi_W_m2: '', dni_W_m2: '', dhi_W_m2: '', light_on_cell_W_m2: '60.000' });
  });

  test('gives each lamp its own hours where lamps share a spot, and each spot its own light', () => {
    const shared = smallTrial();
    const other = smallTrial({ spot: 'shed', light: smallLight(48, shared.light.start_ms, true) });
    const rows = csvRecords(textOf(shared, { ...shared, lamp: 'double' }, other));
    expect(rows.map((row) => row.lamp).filter((lamp) => lamp === 'double')).toHaveLength(48);
    expect(rows[48]!.ghi_W_m2).toBe('80.00');
    expect(rows[96]).toMatchObject({ spot: 'shed', ghi_W_m2: '' });
  });
});
