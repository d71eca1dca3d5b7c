import { describe, expect, test } from 'vitest';
import { civilStamp, utcStamp } from '../../sim/output/civilStamp.ts';
import { hoursCsv } from '../../sim/output/hoursCsv.ts';
import type { HourlyTrial } from '../../sim/trial/Trial.ts';
import { csvRecords, smallLight, smallTrial } from './smallRun.ts';

/** The columns in the order every release keeps. */
const HOUR_ORDER =
  'spot,lamp,start_utc,start_local,ghi_W_m2,dni_W_m2,dhi_W_m2,air_degC,weather_mark,sun_altitude_deg,' +
  'light_on_cell_W_m2,beam_on_cell_W_m2,sky_on_cell_W_m2,reflected_on_cell_W_m2,jar_degC,reachable_V,capacitor_end_V,' +
  'capacitor_lowest_V,charge_in_C,charge_out_C,cell_best_J,cell_J,diode_loss_J,resistance_loss_J,delayed_branch_loss_J,' +
  'leakage_J,limiter_J,standby_J,driver_loss_J,led_J,stored_change_J,residual_J,promised_s,lit_s,short_s,dim_s,out_s,' +
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

/** The whole text; a piece holds only until the next. */
function csvOf(...work: Parameters<typeof hoursCsv>): string {
  return Array.from(hoursCsv(...work), (piece) => Buffer.from(piece).toString('utf8')).join('');
}

function textOf(...trials: HourlyTrial[]): string {
  return csvOf(trials, 'Europe/Berlin');
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
  test('writes every stamp as utcStamp and civilStamp do, in zones east and west, with odd offsets too', () => {
    for (const zone of ['Asia/Kathmandu', 'America/St_Johns', 'Australia/Lord_Howe', 'Pacific/Apia']) {
      const civil = civilStamp(zone);
      for (const from of ['2011-12-29T00:00:00Z', '2025-04-05T00:30:00Z', '2025-11-01T00:00:00Z']) {
        const start_ms = Date.parse(from);
        const trial = smallTrial({ light: smallLight(48, start_ms) });
        const rows = csvRecords(csvOf([trial], zone));
        rows.forEach((row, i) => {
          const ms = start_ms + i * 3_600_000;
          expect(row).toMatchObject({ start_utc: utcStamp(ms), start_local: civil(ms) });
        });
      }
    }
  });

  test('quotes a name that must be, and keeps it in UTF-8', () => {
    const text = textOf(smallTrial({ spot: 'Hütte, "hinten"' }));
    expect(text.split('\n')[1]).toMatch(/^"Hütte, ""hinten""",/);
  });
});
