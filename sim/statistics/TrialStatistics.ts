import type { NightCause } from '../night/nightLedger.ts';
import type { YearColumns } from '../year/YearColumns.ts';
import type { WinterOdds } from './WinterOdds.ts';

/** A run of consecutive failed nights. */
export interface Spell {
  from: string;
  to: string;
  nights: number;
}

/** The 14 nights running with most short hours; ties: least light on the cell. */
export interface Fortnight {
  from: string;
  to: string;
  short_h: number;
  failedNights: number;
  lightOnCell_Wh_m2: number;
  lowestCapacitor_V: number;
}

/** Promised hours that fell short: dim or out. */
export interface ShortHours {
  short_h: number;
  /** On, below the promised light. */
  dim_h: number;
  /** Off. */
  out_h: number;
}

/** What one winter came to, or several together: their sums, and the extremes of all. */
export interface WinterTotals extends ShortHours {
  /** Nights with a promise. */
  nights: number;
  failedNights: number;
  /** Those of the failed nights that went out; the others were dim. */
  failedOut: number;
  promised_h: number;
  lightGiven_lm_h: number;
  /** The earliest of equals. */
  longestSpell: Spell | undefined;
  darkestFortnight: Fortnight | undefined;
  /** Least energy above the cut-off at a dawn, with its night; NaN without one. */
  smallestReserve_J: number;
  smallestReserveNight: string;
}

/** What a record holds of a winter: every night; those of the dark months at least; or fewer. */
export type WinterExtent = 'whole' | 'dark-months' | 'part';

/** What a winter came to. Nights that the record holds only in part are left out. */
export interface WinterStatistics extends WinterTotals {
  winter: string;
  extent: WinterExtent;
  /** Whether a verdict may rest on it: whole, or its dark months are; a part winter carries none. */
  complete: boolean;
  /** Failed nights by what made them short; causes that did not occur are left out. */
  causes: Partial<Record<NightCause, number>>;
  /** The night with most short hours; undefined where none was short. */
  worstNight: ({ night: string; cause: string } & ShortHours) | undefined;
  /** Nights from the end of the longest spell until a dawn with more than half of the reserve usual in that winter; undefined without a spell. */
  recoveryNights: number | undefined;
  /** Quantiles of short hours over failed nights (type 7): median, 90 percent. */
  shortMedian_h: number;
  short_90_percent_h: number;
  filledWeather_h: number;
}

/** A calendar month of a trial, for the compact table. */
export interface MonthStatistics extends ShortHours {
  /** 'YYYY-MM', of the evenings. */
  month: string;
  nights: number;
  failedNights: number;
  promised_h: number;
  lit_h: number;
  /** Mean over the days of the month. */
  lightOnCell_Wh_m2_day: number;
  ghi_Wh_m2_day: number;
  /** Mean capacitor voltage at dusk and at dawn. */
  capacitorDusk_V: number;
  capacitorDawn_V: number;
  capacitorLowest_V: number;
  lightGiven_lm_h: number;
  aboveHalf_h: number;
  aboveFifth_h: number;
}

/** How long a night of a month was lit, by what counts as lit: hours a night, mean over its nights with a promise. */
export interface ThresholdMonth extends Pick<MonthStatistics, 'month' | 'nights' | 'promised_h'> {
  /** At or above the promised level, within the promise and beyond it. */
  abovePromised_h: number;
  /** More than half, and more than a fifth, of the light at switching on. */
  aboveHalf_h: number;
  aboveFifth_h: number;
}

/** Columns of the hours that hold energies. */
export type EnergyColumn = Extract<keyof YearColumns, `${string}_J`>;

/** Energies of a whole run, joules, in the names of the ledger. */
export interface EnergyStatistics
  extends Record<Exclude<EnergyColumn, 'unharvestedLow_J' | 'unharvestedHigh_J'>, number> {
  light_J: number;
  conversionLoss_J: number;
  unharvestedCapacitorLow_J: number;
  unharvestedCapacitorHigh_J: number;
}

/** The energy ledger of a calendar month. */
export interface EnergyMonth extends EnergyStatistics {
  /** 'YYYY-MM', of the civil dates. */
  month: string;
}

/** The answer for one trial. */
export type Verdict = 'kept' | 'broken' | 'nothing-promised' | 'no-whole-winter';

/** What the nights of a trial come to. */
export interface NightStatistics {
  verdict: Verdict;
  winters: WinterStatistics[];
  /** What two or more whole winters come to as a sample. */
  odds?: WinterOdds;
}

export interface TrialStatistics extends NightStatistics {
  months: MonthStatistics[];
  energy: EnergyStatistics;
}
