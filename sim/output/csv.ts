import { csvText, fixed } from '../common/csvText.ts';
import { HOUR_MS } from '../common/time.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { Trial } from '../trial/Trial.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { civilStamp, utcStamp } from './civilStamp.ts';
import {
  type Column,
  cellText,
  HOUR_HEADINGS,
  LAMP_COLUMNS,
  LIGHT_COLUMNS,
  MARK_HEADING,
  NIGHT_COLUMNS,
  TRIAL_HEADINGS,
  WEATHER_COLUMNS,
} from './columns.ts';

const ROWS_A_CHUNK = 2000;
/** Zero with 0 to 6 decimals. */
const ZEROS = [0, 1, 2, 3, 4, 5, 6].map((decimals) => fixed(0, decimals));

/**
 * The text of nights.csv: a row per trial and night, in the order of the trials.
 *
 * in: trials; timeZone, IANA name of the site
 * out: CSV text, one heading row
 */
export function nightsCsv(trials: readonly Trial[], timeZone: string): string {
  const civil = civilStamp(timeZone);
  const rows = trials.flatMap((trial) => trial.nights.map((night) => ({ trial, night })));
  const names = (['spot', 'lamp'] as const).map((heading) => ({
    heading,
    cell: ({ trial }: (typeof rows)[number]) => trial[heading],
  }));
  const ofNight = NIGHT_COLUMNS.map((column) => ({
    heading: column.heading,
    cell: ({ night }: (typeof rows)[number]) => cellText(column, night, civil),
  }));
  return csvText([...names, ...ofNight], rows);
}

/**
 * The text of hours.csv, piece by piece (many years of it need not fit one string): a row per trial and hour.
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
    const lamp = valuesOf(LAMP_COLUMNS, { ...columns, ledMean_mA: ledMean_mA(columns) });
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
  const all = [
    ...Object.keys({ ...TRIAL_HEADINGS, ...HOUR_HEADINGS }),
    ...names(WEATHER_COLUMNS),
    ...Object.keys(MARK_HEADING),
    ...names(LIGHT_COLUMNS),
    ...names(LAMP_COLUMNS),
  ];
  return `${all.join(',')}\n`;
}

/** A text as one cell of a CSV file, quoted where it must be. */
function csvCell(text: string): string {
  return csvText([{ heading: text, cell: String }], []).slice(0, -1);
}

/** What all lamps in one spot share of a row: the stamps, weather and light. */
function rowBeginnings(light: SpotLight, civil: (ms: number) => string): string[] {
  const weather = valuesOf(WEATHER_COLUMNS, light);
  const onCell = valuesOf(LIGHT_COLUMNS, light);
  return Array.from({ length: light.count }, (_, i) => {
    const start_ms = light.start_ms + i * HOUR_MS;
    const mark = WEATHER_MARKS[light.mark[i]!];
    return `${utcStamp(start_ms)},${civil(start_ms)},${numbers(weather, i)},${mark},${numbers(onCell, i)},`;
  });
}

/** Mean current of the LED while it shone; NaN where it did not. */
function ledMean_mA({ led_C, shining_s }: YearColumns): Float64Array {
  return led_C.map((charge_C, i) => (shining_s[i]! > 0 ? (charge_C / shining_s[i]!) * 1000 : Number.NaN));
}

interface Values {
  decimals: number;
  values: Float64Array;
}

function valuesOf<Source>(columns: readonly Column<Source>[], source: Source): Values[] {
  return columns.map(({ key, decimals }) => ({ decimals, values: source[key] as Float64Array }));
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
