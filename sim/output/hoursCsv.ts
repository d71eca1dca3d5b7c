import { csvText, fixed } from '../common/csvText.ts';
import type { SpotLight } from '../spot/SpotLight.ts';
import type { Trial } from '../trial/Trial.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import { civilStamp } from './civilStamp.ts';
import { utcStamp } from './utcStamp.ts';

interface HourColumn<Source> {
  heading: string;
  decimals: number;
  value: (source: Source, hour: number) => number;
}

const HOUR_MS = 3_600_000;
const ROWS_A_CHUNK = 2000;
/** Zero with 0 to 6 decimals. */
const ZEROS = [0, 1, 2, 3, 4, 5, 6].map((decimals) => fixed(0, decimals));

const LIGHT_COLUMNS: HourColumn<SpotLight>[] = [
  { heading: 'sun_altitude_deg', decimals: 3, value: (light, i) => light.sunAltitude_deg[i]! },
  { heading: 'light_on_cell_W_m2', decimals: 3, value: (light, i) => light.onCell_W_m2[i]! },
  { heading: 'beam_on_cell_W_m2', decimals: 3, value: (light, i) => light.beam_W_m2[i]! },
  { heading: 'sky_on_cell_W_m2', decimals: 3, value: (light, i) => light.sky_W_m2[i]! },
  { heading: 'returned_on_cell_W_m2', decimals: 3, value: (light, i) => light.returned_W_m2[i]! },
];

const WEATHER_COLUMNS: HourColumn<SpotLight>[] = [
  { heading: 'ghi_W_m2', decimals: 2, value: (light, i) => light.ghi_W_m2[i]! },
  { heading: 'dni_W_m2', decimals: 2, value: (light, i) => light.dni_W_m2[i]! },
  { heading: 'dhi_W_m2', decimals: 2, value: (light, i) => light.dhi_W_m2[i]! },
  { heading: 'air_degC', decimals: 2, value: (light, i) => light.air_degC[i]! },
];

const LAMP_COLUMNS: HourColumn<Trial['year']['columns']>[] = [
  { heading: 'jar_degC', decimals: 2, value: (year, i) => year.jar_degC[i]! },
  { heading: 'ceiling_V', decimals: 4, value: (year, i) => year.ceiling_V[i]! },
  { heading: 'store_end_V', decimals: 5, value: (year, i) => year.storeEnd_V[i]! },
  { heading: 'store_lowest_V', decimals: 5, value: (year, i) => year.storeLowest_V[i]! },
  { heading: 'charge_in_C', decimals: 4, value: (year, i) => year.chargeIn_C[i]! },
  { heading: 'charge_out_C', decimals: 4, value: (year, i) => year.chargeOut_C[i]! },
  { heading: 'cell_best_J', decimals: 4, value: (year, i) => year.cellBest_J[i]! },
  { heading: 'cell_J', decimals: 4, value: (year, i) => year.cell_J[i]! },
  { heading: 'diode_loss_J', decimals: 4, value: (year, i) => year.diodeLoss_J[i]! },
  { heading: 'resistance_loss_J', decimals: 4, value: (year, i) => year.resistanceLoss_J[i]! },
  { heading: 'slow_branch_loss_J', decimals: 4, value: (year, i) => year.slowBranchLoss_J[i]! },
  { heading: 'leakage_J', decimals: 4, value: (year, i) => year.leakage_J[i]! },
  { heading: 'limiter_J', decimals: 4, value: (year, i) => year.limiter_J[i]! },
  { heading: 'standby_J', decimals: 4, value: (year, i) => year.standby_J[i]! },
  { heading: 'driver_loss_J', decimals: 4, value: (year, i) => year.driverLoss_J[i]! },
  { heading: 'led_J', decimals: 4, value: (year, i) => year.led_J[i]! },
  { heading: 'stored_change_J', decimals: 4, value: (year, i) => year.storedChange_J[i]! },
  { heading: 'residual_J', decimals: 6, value: (year, i) => year.residual_J[i]! },
  { heading: 'promised_s', decimals: 1, value: (year, i) => year.promised_s[i]! },
  { heading: 'lit_s', decimals: 1, value: (year, i) => year.lit_s[i]! },
  { heading: 'dark_s', decimals: 1, value: (year, i) => year.dark_s[i]! },
  {
    heading: 'led_mean_mA',
    decimals: 4,
    value: (year, i) => (year.shining_s[i]! > 0 ? (year.led_C[i]! / year.shining_s[i]!) * 1000 : Number.NaN),
  },
  { heading: 'light_given_lm_h', decimals: 4, value: (year, i) => year.light_lm_h[i]! },
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
    for (let from = 0; from < columns.count; from += ROWS_A_CHUNK) {
      let chunk = '';
      for (let i = from; i < Math.min(from + ROWS_A_CHUNK, columns.count); i++) {
        chunk += `${names}${beginnings[i]!}${numbers(LAMP_COLUMNS, columns, i)}\n`;
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
  for (let i = 0; i < light.count; i++) {
    const start_ms = light.start_ms + i * HOUR_MS;
    const weather = numbers(WEATHER_COLUMNS, light, i);
    const mark = WEATHER_MARKS[light.mark[i]!];
    const onCell = numbers(LIGHT_COLUMNS, light, i);
    rows.push(`${utcStamp(start_ms)},${civil(start_ms)},${weather},${mark},${onCell},`);
  }
  return rows;
}

function numbers<Source>(columns: readonly HourColumn<Source>[], source: Source, hour: number): string {
  let text = '';
  for (let k = 0; k < columns.length; k++) {
    const { value, decimals } = columns[k]!;
    const number = value(source, hour);
    if (k > 0) text += ',';
    // Half of all cells are zero (no sun, no LED): their text is not made anew each time.
    text += number === 0 ? ZEROS[decimals]! : fixed(number, decimals);
  }
  return text;
}
