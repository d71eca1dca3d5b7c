/** The hours of a trial, one typed column a quantity; row i is hour i of the record. */
export interface YearColumns {
  count: number;
  jar_degC: Float64Array;
  reachable_V: Float64Array;
  capacitorEnd_V: Float64Array;
  capacitorLowest_V: Float64Array;
  chargeIn_C: Float64Array;
  chargeOut_C: Float64Array;
  cellBest_J: Float64Array;
  cell_J: Float64Array;
  /** Best-point energy that the cell did not give because the capacitor held it below its best voltage. */
  unharvestedLow_J: Float64Array;
  /** The same, because the capacitor held it above. */
  unharvestedHigh_J: Float64Array;
  diodeLoss_J: Float64Array;
  resistanceLoss_J: Float64Array;
  delayedBranchLoss_J: Float64Array;
  leakage_J: Float64Array;
  limiter_J: Float64Array;
  standby_J: Float64Array;
  driverLoss_J: Float64Array;
  led_J: Float64Array;
  storedChange_J: Float64Array;
  residual_J: Float64Array;
  promised_s: Float64Array;
  lit_s: Float64Array;
  short_s: Float64Array;
  /** Time the LED was on, whatever its light. */
  shining_s: Float64Array;
  /** Charge through the LED. */
  led_C: Float64Array;
  light_lm_h: Float64Array;
  aboveRated_s: Float64Array;
}

/** Names of the columns of YearColumns. */
export const YEAR_COLUMNS = [
  'jar_degC',
  'reachable_V',
  'capacitorEnd_V',
  'capacitorLowest_V',
  'chargeIn_C',
  'chargeOut_C',
  'cellBest_J',
  'cell_J',
  'unharvestedLow_J',
  'unharvestedHigh_J',
  'diodeLoss_J',
  'resistanceLoss_J',
  'delayedBranchLoss_J',
  'leakage_J',
  'limiter_J',
  'standby_J',
  'driverLoss_J',
  'led_J',
  'storedChange_J',
  'residual_J',
  'promised_s',
  'lit_s',
  'short_s',
  'shining_s',
  'led_C',
  'light_lm_h',
  'aboveRated_s',
] as const satisfies readonly (keyof YearColumns)[];

/** Columns for a number of hours, all zero. */
export function emptyYearColumns(count: number): YearColumns {
  const columns: Record<string, Float64Array> = {};
  for (const name of YEAR_COLUMNS) columns[name] = new Float64Array(count);
  return { count, ...columns } as YearColumns;
}
