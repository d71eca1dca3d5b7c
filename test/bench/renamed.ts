/** Headings of nights.csv and hours.csv that were renamed: then, now. */
const COLUMNS: Readonly<Record<string, string>> = {
  dark_h: 'short_h',
  first_dark_local: 'first_short_local',
  highest_ceiling_V: 'highest_reachable_V',
  ceiling_V: 'reachable_V',
  store_dusk_V: 'capacitor_dusk_V',
  store_lowest_V: 'capacitor_lowest_V',
  store_dawn_V: 'capacitor_dawn_V',
  store_end_V: 'capacitor_end_V',
  returned_on_cell_W_m2: 'reflected_on_cell_W_m2',
  slow_branch_loss_J: 'delayed_branch_loss_J',
  dark_s: 'short_s',
};

/** Names that the scenario gives, and causes of a failed night. */
const NAMES: Readonly<Record<string, string>> = { 'one-store': 'single', 'two-stores': 'double' };
const CAUSES: Readonly<Record<string, string>> = {
  'began-below-floor': 'still-empty',
  'late-on': 'switched-on-late',
};

/** Keys of summary.json, compare.json and of `fit --json`. */
const KEYS: Readonly<Record<string, string>> = {
  ...COLUMNS,
  ...NAMES,
  ...CAUSES,
  store: 'capacitor',
  below_floor_uA: 'below_cutoff_uA',
  floor_V: 'cutoff_V',
  leakage_fold_V: 'leakage_e_fold_V',
  slow_hours: 'delayed_hours',
  slow_share: 'delayed_share',
  share: 'on_share',
  store_V: 'capacitor_V',
  store_degC: 'capacitor_degC',
  stops_V: 'cutoff_V',
  dark_below_V: 'night_below_V',
  dark_below_lux: 'night_below_lux',
  light_above_V: 'day_above_V',
  light_above_lux: 'day_above_lux',
  dark_before_h: 'short_before_h',
  dark_median_h: 'short_median_h',
  dark_90_percent_h: 'short_90_percent_h',
  dark_h_month: 'short_h_month',
  failure_nights: 'failed_nights',
  failure_nights_before: 'failed_nights_before',
  failure_nights_month: 'failed_nights_month',
  lowest_store_V: 'lowest_capacitor_V',
  remedies: 'changes',
  slow_branch_loss: 'delayed_branch_loss',
  untaken_store_low: 'unharvested_capacitor_low',
  untaken_store_high: 'unharvested_capacitor_high',
  untaken_share: 'unharvested_share',
  ceiling_below_floor_h: 'reachable_below_cutoff_h',
  ceiling_below_store_h: 'reachable_below_capacitor_h',
  returned_share: 'reflected_share',
  returned_Wh_m2_day: 'reflected_Wh_m2_day',
};

export const columnNow = (heading: string): string => COLUMNS[heading] ?? heading;
export const keyNow = (key: string): string => KEYS[key] ?? key;
export const nameNow = (name: string): string => NAMES[name] ?? name;
export const causesNow = (cause: string): string => CAUSES[cause] ?? cause;
