/** Where an hour's energy goes, beside what it leaves in the capacitor. */
export const ENERGY_SINKS = [
  'diodeLoss_J',
  'resistanceLoss_J',
  'delayedBranchLoss_J',
  'leakage_J',
  'limiter_J',
  'standby_J',
  'driverLoss_J',
  'led_J',
] as const;

/** When the lamp shone, and how long of what was promised: what needs no energy to be told. */
export const HOUR_TIMES = [
  'promised_s',
  'lit_s',
  /** Promised time dim or out. */
  'short_s',
  /** Promised time with the LED on, below the promised light. */
  'dim_s',
  /** Promised time with the LED off. */
  'out_s',
  /** Time the LED was on, whatever its light, the pauses of flashes and the waiting for motion with it. */
  'shining_s',
  'light_lm_h',
  'aboveRated_s',
] as const;

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
  /** Best-point energy that the cell did not give because the capacitor held it below its best voltage. */
  'unharvestedLow_J',
  /** The same, because the capacitor held it above. */
  'unharvestedHigh_J',
  ...ENERGY_SINKS,
  'storedChange_J',
  'residual_J',
  ...HOUR_TIMES,
  /** Time the LED was on, without the pauses of flashes and the waiting for motion. */
  'ledOn_s',
  /** Charge through the LED. */
  'led_C',
] as const;

/** The hours of a trial, one typed column a quantity; row i is hour i of the record. */
export interface YearColumns extends Record<(typeof YEAR_COLUMNS)[number], Float64Array> {
  count: number;
}

/** Those columns that need no energy. */
export type TimeColumns = Pick<YearColumns, 'count' | (typeof HOUR_TIMES)[number]>;

/** Columns for a number of hours, all zero. */
export function emptyYearColumns(count: number): YearColumns {
  return columnsOf(YEAR_COLUMNS, count, () => new Float64Array(count));
}

/** The same of times alone. */
export function emptyTimeColumns(count: number): TimeColumns {
  return columnsOf(HOUR_TIMES, count, () => new Float64Array(count));
}

/** Columns by their names. in: names; count of hours; columnOf, gives that of a name */
export function columnsOf<Name extends string>(
  names: readonly Name[],
  count: number,
  columnOf: (name: Name) => Float64Array,
): Record<Name, Float64Array> & { count: number } {
  const columns = names.map((name) => [name, columnOf(name)] as const);
  // Not spread: each such object would be of a shape of its own, for which the engine compiles the loop anew.
  return Object.fromEntries<unknown>([['count', count], ...columns]) as ReturnType<typeof columnsOf<Name>>;
}
