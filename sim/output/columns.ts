import type { LifeLaw } from '../ageing/capacitorWear.ts';
import type { LifeWinter } from '../ageing/LifeRun.ts';
import { fixed } from '../common/csvText.ts';
import type { NightRow } from '../night/nightLedger.ts';
import type { Outcome } from '../sizing/SizedDesign.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import { utcStamp } from './civilStamp.ts';
import { publishedName } from './json.ts';
import { promisedLight } from './words.ts';

/** A quantity shown in tables: how CSV files, pictures, page, terminal and README name and write it. */
export interface Column<Row> {
  /** Field of the row. */
  key: keyof Row & string;
  /** In CSV files: quantity and unit in one word. */
  heading: string;
  /** As people read it, without its unit; in hours.csv the heading. */
  label: string;
  /** '' where it has none. */
  unit: string;
  decimals: number;
  /** What it is, for whoever reads the file. */
  meaning: string;
}

type Entry<Row> = readonly [
  key: keyof Row & string,
  decimals: number,
  meaning: string,
  label?: string,
  heading?: string,
];

/** Units as people write them, by the end of a field's name. */
const UNITS: Readonly<Record<string, string>> = {
  W_m2: 'W/m2',
  Wh_m2: 'Wh/m2',
  Wh_m2_day: 'Wh/m2 a day',
  lm_h: 'lm h',
  ms: 'UTC',
};

function columnsOf<Row>(entries: readonly Entry<Row>[]): Column<Row>[] {
  return entries.map(([key, decimals, meaning, label = key, heading = publishedName(key)]) => {
    const unit = key.includes('_') ? key.slice(key.indexOf('_') + 1) : '';
    const shown = heading.endsWith('_local') ? 'local time' : (UNITS[unit] ?? unit);
    return { key, heading, label, unit: shown, decimals, meaning };
  });
}

/**
 * A row's cell under a column, as CSV files hold it: '' where it does not apply.
 *
 * in: column; row; civil, writes an instant as civil time
 */
export function cellText<Row>(column: Column<Row>, row: Row, civil: (ms: number) => string): string {
  const value: unknown = row[column.key];
  if (typeof value !== 'number') return typeof value === 'boolean' ? String(Number(value)) : String(value);
  if (!column.key.endsWith('_ms')) return fixed(value, column.decimals);
  return column.heading.endsWith('_local') ? civil(value) : utcStamp(value);
}

/** A night of the ledger; hours to 4 decimals (a third of a second), so that lit, dim and out add up to promised. */
export const NIGHT_COLUMNS = columnsOf<NightRow>([
  ['winter', 0, 'the season year the night belongs to', 'winter'],
  ['night', 0, 'civil date of its evening', 'evening of'],
  ['complete', 0, '1 where the record holds the whole night, else 0', 'whole'],
  ['dusk_ms', 0, "sun's centre 6 degrees below the horizon", 'dusk'],
  ['dawn_ms', 0, 'the same in the morning', 'dawn'],
  ['promised_h', 4, 'promised hours of this night', 'promised'],
  ['lit_h', 4, 'promised hours at or above `least_lumen`', 'lit'],
  ['short_h', 4, 'promised hours dim or out; lit + short = promised', 'short'],
  ['dim_h', 4, 'promised hours with the LED on, below `least_lumen`', 'dim'],
  ['out_h', 4, 'promised hours with the LED off', 'out'],
  ['litBeyondPromise_h', 4, 'lit outside the promised hours', 'lit beyond the promise'],
  ['outcome', 0, 'kept, failed, nothing-promised', 'promise'],
  [
    'cause',
    0,
    'none, snow, still-empty, ran-empty, switched-on-late, too-dim, locked-out, not-scheduled',
    'cause',
  ],
  ['firstShort_ms', 0, 'first instant of the short hours', 'first short', 'first_short_local'],
  ['lightOnCell_Wh_m2', 2, "on the evening's date", 'light on the cell that day'],
  ['highestReachable_V', 4, 'highest voltage the cell could charge to that day', 'highest reachable'],
  ['capacitorDusk_V', 4, 'capacitor at dusk', 'capacitor at dusk'],
  ['capacitorLowest_V', 4, 'its lowest of the night', 'capacitor, lowest'],
  ['capacitorDawn_V', 4, 'capacitor at dawn', 'capacitor at dawn'],
  ['reserveDawn_J', 4, 'energy left at dawn above the cut-off voltage', 'left at dawn'],
  ['lightGiven_lm_h', 4, 'light given by the LED, all night', 'light given'],
  ['aboveRated_h', 4, 'capacitor above its rated voltage', 'above rated voltage'],
  ['snowOnLid_h', 0, "hours of the evening's date with snow on the lid", 'snow on the lid'],
  ['filledWeather_h', 2, 'hours of weather that were not measured', 'weather filled'],
  ['aboveHalf_h', 4, 'with more than half of the light at switching on', 'over half'],
  ['aboveFifth_h', 4, 'with more than a fifth of it', 'over a fifth'],
]);

/** An hour of the weather. */
export const WEATHER_COLUMNS = columnsOf<SpotLight>([
  ['ghi_W_m2', 2, 'global irradiance on level ground, mean over the hour'],
  ['dni_W_m2', 2, 'direct normal irradiance'],
  ['dhi_W_m2', 2, 'diffuse irradiance on level ground'],
  ['air_degC', 2, 'air temperature'],
]);

/** An hour of the light on the cell. */
export const LIGHT_COLUMNS = columnsOf<SpotLight>([
  ['sunAltitude_deg', 3, 'height of the sun at mid-hour'],
  [
    'planeOfArray_W_m2',
    3,
    'behind cover and front, as if straight on: beam + sky + reflected',
    'light_on_cell',
    'light_on_cell_W_m2',
  ],
  ['beam_W_m2', 3, 'straight from the sun', 'beam_on_cell', 'beam_on_cell_W_m2'],
  ['sky_W_m2', 3, 'from the sky', 'sky_on_cell', 'sky_on_cell_W_m2'],
  ['reflected_W_m2', 3, 'from ground and walls', 'reflected_on_cell', 'reflected_on_cell_W_m2'],
]);

/** The hours of a lamp, with the mean current of its LED while it shone. */
export interface LampHours extends YearColumns {
  ledMean_mA: Float64Array;
}

/** An hour of the lamp; energies to 4 decimals, so that the balance of an hour can be checked to 5e-4 J. */
export const LAMP_COLUMNS = columnsOf<LampHours>([
  ['jar_degC', 2, 'air, cell and capacitor in the jar'],
  ['reachable_V', 4, 'highest voltage the cell could charge to'],
  ['capacitorEnd_V', 5, 'capacitor at the end of the hour'],
  ['capacitorLowest_V', 5, 'its lowest within the hour'],
  ['chargeIn_C', 4, 'from the cell'],
  ['chargeOut_C', 4, 'out of the capacitor'],
  ['cellBest_J', 4, 'what the cell could give at its best point'],
  ['cell_J', 4, 'what it gave = losses + `led_J` + `stored_change_J` + `residual_J`'],
  ['diodeLoss_J', 4, 'loss in the blocking diode'],
  ['resistanceLoss_J', 4, 'loss in series resistance'],
  ['delayedBranchLoss_J', 4, 'loss in the delayed branch, as charge creeps in'],
  ['leakage_J', 4, 'loss by leakage'],
  ['limiter_J', 4, 'loss in the limiter'],
  ['standby_J', 4, 'drawn by the driver on standby'],
  ['driverLoss_J', 4, 'loss in the driver'],
  ['led_J', 4, 'into the LED'],
  ['storedChange_J', 4, 'change of what is stored'],
  ['residual_J', 6, 'what does not close'],
  ['promised_s', 1, 'promised time'],
  ['lit_s', 1, 'promised time at or above `least_lumen`'],
  ['short_s', 1, 'promised time dim or out'],
  ['dim_s', 1, 'promised time with the LED on, below `least_lumen`'],
  ['out_s', 1, 'promised time with the LED off'],
  ['ledMean_mA', 4, 'current of the LED while it shone'],
  ['light_lm_h', 4, 'light given by the LED', 'light_given', 'light_given_lm_h'],
]);

/** A winter of a lamp's life by one of the three factors. */
export interface LifeRow extends Omit<LifeWinter, 'age' | 'between'> {
  interpolated: boolean;
  factor: LifeLaw['name'];
  capacitance: number;
  resistance: number;
  leakage: number;
  led: number;
  cell: number;
  cover: number;
}

/** A winter of life.csv. */
export const LIFE_COLUMNS = columnsOf<LifeRow>([
  ['factor', 0, 'which published factor of how a capacitor ages: low, middle, high'],
  ['winter', 0, 'of the life, 1 is the first'],
  ['capacitance', 5, "at its begin, against a new lamp's", 'capacitance', 'capacitance_left'],
  ['resistance', 4, 'series resistance, so many times', 'resistance', 'resistance_times'],
  ['leakage', 4, 'so many times', 'leakage', 'leakage_times'],
  ['led', 5, 'light of the LED at the same current', 'led', 'led_left'],
  ['cell', 5, 'current of the cell in the same light', 'cell', 'cell_left'],
  ['cover', 5, 'light that the cover lets through', 'cover', 'cover_left'],
  [
    'failedNights',
    3,
    'failed nights; of several winters of weather their mean, as all that follows',
    'failed nights',
  ],
  ['short_h', 3, 'promised hours dim or out', 'short'],
  ['light_lm_h', 2, 'light given by the LED', 'light given', 'light_given_lm_h'],
  ['broken', 4, "share of the weather's winters in which a night fails", 'broken', 'broken_share'],
  ['smallestReserve_J', 2, 'least energy left in a morning above the cut-off voltage', 'least left'],
]);

/** What a design costs and comes to. */
export interface DesignNumbers extends Outcome {
  price: number;
}

/** A design of those that were run; before these columns come one a choice, under its key. */
export const DESIGN_COLUMNS = columnsOf<DesignNumbers>([
  ['price', 2, 'of the parts that must be bought for one lamp'],
  ['nights', 0, 'nights with a promise, of whole winters'],
  ['winters', 0, 'winters that count'],
  ['keptWinters', 0, 'of these without a failed night'],
  ['failedNights', 0, 'nights short by more than the tolerance'],
  ['short_h', 2, 'promised hours dim or out'],
  ['light_lm_h', 1, 'light given in a winter'],
  ['smallestReserve_J', 2, 'energy left above the cut-off voltage at the worst dawn'],
]);

/** What the rows of designs.csv begin with. */
export const DESIGN_HEADINGS = {
  recommended: 'as what it is recommended, if at all',
  spot: 'where the lamp stands',
};

/** What the rows of nights.csv and life.csv begin with, and those of hours.csv; the mark stands between weather and light. */
export const TRIAL_HEADINGS = { spot: 'where the lamp stands', lamp: 'which lamp' };
export const HOUR_HEADINGS = {
  start_utc: 'start of the hour, UTC',
  start_local: 'the same in local time, with its offset',
};
export const MARK_HEADING = { weather_mark: WEATHER_MARKS.join(', ') };

/** A column of a table by month, with a heading of two lines for the terminal. */
export interface MonthColumn extends Column<MonthStatistics> {
  tight: readonly [string, string];
}

/** A month's cell under a column, as people read it: '' where it does not apply. */
export function monthCell({ key, decimals }: Column<MonthStatistics>, month: MonthStatistics): string {
  const value = month[key];
  return typeof value === 'string' ? value : fixed(value, decimals);
}

/**
 * The columns of a trial month by month.
 * in: leastLight_lm, from which the LED counts as lit
 */
export function monthColumns(leastLight_lm: number): MonthColumn[] {
  const lit = promisedLight(leastLight_lm);
  const entries: readonly [top: string, below: string, ...Entry<MonthStatistics>][] = [
    ['month', '', 'month', 0, 'of the evenings', 'month'],
    ['', 'nights', 'nights', 0, 'nights with a promise', 'nights'],
    ['failed', 'nights', 'failedNights', 0, 'nights short by more than the tolerance', 'failed nights'],
    ['dim', 'h', 'dim_h', 1, 'promised hours on, below the least light', 'dim'],
    ['out', 'h', 'out_h', 1, 'promised hours off', 'out'],
    ['lit h', `>=${lit}`, 'lit_h', 1, 'the others', `lit at ${lit} or more`],
    ['h over', '1/2', 'aboveHalf_h', 1, 'with more than half of the light at switching on', 'over half'],
    ['h over', '1/5', 'aboveFifth_h', 1, 'with more than a fifth of it', 'over a fifth'],
    ['on cell', 'Wh/m2', 'lightOnCell_Wh_m2_day', 0, 'mean over the days', 'light on the cell'],
    ['level', 'Wh/m2', 'ghi_Wh_m2_day', 0, 'mean over the days', 'on level ground'],
    ['V at', 'dusk', 'capacitorDusk_V', 2, 'mean over the nights', 'capacitor at dusk'],
    ['V at', 'dawn', 'capacitorDawn_V', 2, 'mean over the nights', 'at dawn'],
    ['least', 'V', 'capacitorLowest_V', 2, 'of all nights', 'lowest'],
  ];
  const columns = columnsOf<MonthStatistics>(entries.map(([, , ...entry]) => entry));
  return columns.map((column, k) => ({ ...column, tight: [entries[k]![0], entries[k]![1]] }));
}
