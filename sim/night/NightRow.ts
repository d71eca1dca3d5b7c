import type { ShortCause } from '../year/NightTotals.ts';

export type NightOutcome = 'kept' | 'failed' | 'nothing-promised';
export type NightCause = 'none' | ShortCause;

/** One night of a trial: a row of the night ledger. NaN says 'does not apply'. */
export interface NightRow {
  /** '2025/26' north of the equator, '2025' south of it. */
  winter: string;
  /** Civil date of the evening. */
  night: string;
  complete: boolean;
  /** UTC milliseconds; NaN in a white night. */
  dusk_ms: number;
  dawn_ms: number;
  promised_h: number;
  lit_h: number;
  short_h: number;
  litBeyondPromise_h: number;
  outcome: NightOutcome;
  /** What most of the short time came from. */
  cause: NightCause;
  /** UTC milliseconds of the first dark instant in promised time; NaN where there is none. */
  firstShort_ms: number;
  /** Light on the cell over the civil date of the evening. */
  lightOnCell_Wh_m2: number;
  /** Global horizontal irradiation over the same date; NaN where it does not apply. */
  ghi_Wh_m2: number;
  highestReachable_V: number;
  capacitorDusk_V: number;
  capacitorLowest_V: number;
  capacitorDawn_V: number;
  /** Energy above the cut-off at dawn; negative below it. */
  reserveDawn_J: number;
  lightGiven_lm_h: number;
  aboveRated_h: number;
  filledWeather_h: number;
  /** Hours with more than half, and more than a fifth, of the light at switching on. */
  aboveHalf_h: number;
  aboveFifth_h: number;
}
