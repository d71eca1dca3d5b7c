import { csvText, fixed } from '../common/csvText.ts';
import { HOUR_MS } from '../common/time.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { Trial } from '../trial/Trial.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { civilStamp } from './civilStamp.ts';
import { utcStamp } from './utcStamp.ts';

interface HourColumn<Source> {
  heading: string;
  decimals: number;
  of: (source: Source) => Float64Array;
}

const ROWS_A_CHUNK = 2000;
/** Zero with 0 to 6 decimals. */
const ZEROS = [0, 1, 2, 3, 4, 5, 6].map((decimals) => fixed(0, decimals));

const WEATHER_COLUMNS: HourColumn<SpotLight>[] = [
  { heading: 'ghi_W_m2', decimals: 2, of: (light) => light.ghi_W_m2 },
  { heading: 'dni_W_m2', decimals: 2, of: (light) => light.dni_W_m2 },
  { heading: 'dhi_W_m2', decimals: 2, of: (light) => light.dhi_W_m2 },
  { heading: 'air_degC', decimals: 2, of: (light) => light.air_degC },
];

const LIGHT_COLUMNS: HourColumn<SpotLight>[] = [
  { heading: 'sun_altitude_deg', decimals: 3, of: (light) => light.sunAltitude_deg },
  { heading: 'light_on_cell_W_m2', decimals: 3, of: (light) => light.planeOfArray_W_m2 },
  { heading: 'beam_on_cell_W_m2', decimals: 3, of: (light) => light.beam_W_m2 },
  { heading: 'sky_on_cell_W_m2', decimals: 3, of: (light) => light.sky_W_m2 },
  { heading: 'reflected_on_cell_W_m2', decimals: 3, of: (light) => light.reflected_W_m2 },
];

const LAMP_COLUMNS: HourColumn<YearColumns>[] = [
  { heading: 'jar_degC', decimals: 2, of: (year) => year.jar_degC },
  { heading: 'reachable_V', decimals: 4, of: (year) => year.reachable_V },
  { heading: 'capacitor_end_V', decimals: 5, of: (year) => year.capacitorEnd_V },
  { heading: 'capacitor_lowest_V', decimals: 5, of: (year) => year.capacitorLowest_V },
  { heading: 'charge_in_C', decimals: 4, of: (year) => year.chargeIn_C },
  { heading: 'charge_out_C', decimals: 4, of: (year) => year.chargeOut_C },
  { heading: 'cell_best_J', decimals: 4, of: (year) => year.cellBest_J },
  { heading: 'cell_J', decimals: 4, of: (year) => year.cell_J },
  { heading: 'diode_loss_J', decimals: 4, of: (year) => year.diodeLoss_J },
  { heading: 'resistance_loss_J', decimals: 4, of: (year) => year.resistanceLoss_J },
  { heading: 'delayed_branch_loss_J', decimals: 4, of: (year) => year.delayedBranchLoss_J },
  { heading: 'leakage_J', decimals: 4, of: (year) => year.leakage_J },
  { heading: 'limiter_J', decimals: 4, of: (year) => year.limiter_J },
  { heading: 'standby_J', decimals: 4, of: (year) => year.standby_J },
  { heading: 'driver_loss_J', decimals: 4, of: (year) => year.driverLoss_J },
  { heading: 'led_J', decimals: 4, of: (year) => year.led_J },
  { heading: 'stored_change_J', decimals: 4, of: (year) => year.storedChange_J },
  { heading: 'residual_J', decimals: 6, of: (year) => year.residual_J },
  { heading: 'promised_s', decimals: 1, of: (year) => year.promised_s },
  { heading: 'lit_s', decimals: 1, of: (year) => year.lit_s },
  { heading: 'short_s', decimals: 1, of: (year) => year.short_s },
  { heading: 'led_mean_mA', decimals: 4, of: ledMean_mA },
  { heading: 'light_given_lm_h', decimals: 4, of: (year) => year.light_lm_h },
];

/**
 * The text of hours.csv, piece by piece (many years of it need not fit one string): a row per trial and hour. Energies
 * to 4 decimals of a joule, so that the balance of an hour can be checked from the file to 5e-4 J.
 *
 * in: trials; timeZone, IANA name of the site
 * out: pieces that together are the CSV text, the heading row first
 */
export function* hoursCsv(trials: readonly Trial[], timeZone: string): Generator<string> {
  yield heading();
  const civil = civilStamp(timeZone);
  let light: SpotLight | undefined;
  let beginnings: string[] = [];
  for (const trial of trials) {
    if (light !== trial.light) beginnings = rowBeginnings(trial.light, civil);
    light = trial.light;
    const names = `${csvCell(trial.spot)},${csvCell(trial.lamp)},`;
    const { columns } = trial.year;
    const lamp = valuesOf(LAMP_COLUMNS, columns);
    for (let from = 0; from < columns.count; from += ROWS_A_CHUNK) {
      let chunk = '';
      for (let i = from; i < Math.min(from + ROWS_A_CHUNK, columns.count); i++) {
        chunk += `${names}${beginnings[i]!}${numbers(lamp, i)}\n`;
      }
      yield chunk;
    }
  }
}

function heading(): string {
  const names = (columns: readonly { heading: string }[]) => columns.map((column) => column.heading);
  const all = ['spot', 'lamp', 'start_utc', 'start_local', ...names(WEATHER_COLUMNS), 'weather_mark'];
  return `${[...all, ...names(LIGHT_COLUMNS), ...names(LAMP_COLUMNS)].join(',')}\n`;
}

/** A text as one cell of a CSV file, quoted where it must be. */
function csvCell(text: string): string {
  return csvText([{ heading: text, cell: String }], []).slice(0, -1);
}

/** What all lamps in one spot share of a row: the stamps, weather and light. */
function rowBeginnings(light: SpotLight, civil: (ms: number) => string): string[] {
  const rows: string[] = [];
  const sky = valuesOf(WEATHER_COLUMNS, light);
  const cell = valuesOf(LIGHT_COLUMNS, light);
  for (let i = 0; i < light.count; i++) {
    const start_ms = light.start_ms + i * HOUR_MS;
    const weather = numbers(sky, i);
    const mark = WEATHER_MARKS[light.mark[i]!];
    const planeOfArray = numbers(cell, i);
    rows.push(`${utcStamp(start_ms)},${civil(start_ms)},${weather},${mark},${planeOfArray},`);
  }
  return rows;
}

/** Mean current of the LED while it shone; NaN where it did not. */
function ledMean_mA({ led_C, shining_s }: YearColumns): Float64Array {
  return led_C.map((charge_C, i) => (shining_s[i]! > 0 ? (charge_C / shining_s[i]!) * 1000 : Number.NaN));
}

interface Values {
  decimals: number;
  values: Float64Array;
}

function valuesOf<Source>(columns: readonly HourColumn<Source>[], source: Source): Values[] {
  return columns.map(({ decimals, of }) => ({ decimals, values: of(source) }));
}

function numbers(columns: readonly Values[], hour: number): string {
  let text = '';
  for (let k = 0; k < columns.length; k++) {
    const { values, decimals } = columns[k]!;
    const value = values[hour]!;
    if (k > 0) text += ',';
    // Half of all cells are zero (no sun, no LED): their text is not made anew each time.
    text += value === 0 ? ZEROS[decimals]! : fixed(value, decimals);
  }
  return text;
}
