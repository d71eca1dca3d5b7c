import type { DarkBecause } from '../year/NightTotals.ts';

/** A run of consecutive failure nights. */
export interface Spell {
  from: string;
  to: string;
  nights: number;
}

/** The 14 nights running with most dark hours; ties: least light on the cell. */
export interface Fortnight {
  from: string;
  to: string;
  dark_h: number;
  failureNights: number;
  lightOnCell_Wh_m2: number;
  lowestStore_V: number;
}

/** What a winter came to. Nights that the record holds only in part are left out. */
export interface WinterStatistics {
  winter: string;
  /** A part winter carries no verdict. */
  complete: boolean;
  /** Nights with a promise. */
  nights: number;
  failureNights: number;
  promised_h: number;
  dark_h: number;
  /** Failure nights by what most of their dark time came from; causes that did not occur are left out. */
  causes: Partial<Record<DarkBecause, number>>;
  /** The night with most dark hours; undefined where none was dark. */
  worstNight?: { night: string; dark_h: number; cause: string };
  longestSpell?: Spell;
  darkestFortnight?: Fortnight;
  lightGiven_lm_h: number;
  /** Least energy above the floor at a dawn, with its night. */
  smallestReserve_J: number;
  smallestReserveNight: string;
  /** Nights from the end of the longest spell until a dawn with more than half of the reserve usual in that winter; undefined without a spell. */
  recoveryNights?: number;
  /** Quantiles of dark hours over failure nights (type 7): median, 90 percent. */
  darkMedian_h: number;
  dark90_h: number;
  filledWeather_h: number;
}

/** A calendar month of a trial, for the compact table. */
export interface MonthStatistics {
  /** 'YYYY-MM', of the evenings. */
  month: string;
  nights: number;
  failureNights: number;
  promised_h: number;
  lit_h: number;
  dark_h: number;
  /** Mean over the days of the month. */
  lightOnCell_Wh_m2_day: number;
  ghi_Wh_m2_day: number;
  /** Mean store voltage at dusk and at dawn. */
  storeDusk_V: number;
  storeDawn_V: number;
  storeLowest_V: number;
  lightGiven_lm_h: number;
  aboveHalf_h: number;
  aboveFifth_h: number;
}

/** Energies of a whole run, joules, in the names of the ledger. */
export interface EnergyStatistics {
  light_J: number;
  conversionLoss_J: number;
  cellBest_J: number;
  untakenStoreLow_J: number;
  untakenStoreHigh_J: number;
  cell_J: number;
  diodeLoss_J: number;
  resistanceLoss_J: number;
  slowBranchLoss_J: number;
  leakage_J: number;
  limiter_J: number;
  standby_J: number;
  driverLoss_J: number;
  led_J: number;
  storedChange_J: number;
  residual_J: number;
}

/** The answer for one trial. */
export type Verdict = 'kept' | 'broken' | 'nothing-promised' | 'no-whole-winter';

export interface TrialStatistics {
  verdict: Verdict;
  winters: WinterStatistics[];
  months: MonthStatistics[];
  energy: EnergyStatistics;
}
