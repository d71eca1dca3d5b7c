/** Why promised time was dark; the number is the row of NightTotals.shortBy_s. */
export const SHORT_CAUSES = [
  'still-empty',
  'ran-empty',
  'switched-on-late',
  'too-dim',
  'not-scheduled',
] as const;

export type ShortCause = (typeof SHORT_CAUSES)[number];

/** What the hourly loop noted of each night, one typed column a quantity. Seconds count from the start of the record. */
export interface NightTotals {
  count: number;
  promised_s: Float64Array;
  lit_s: Float64Array;
  litBeyondPromise_s: Float64Array;
  /** One column for each entry of SHORT_CAUSES. */
  shortBy_s: readonly Float64Array[];
  /** First dark instant in promised time; NaN where there is none. */
  firstShort_s: Float64Array;
  dusk_V: Float64Array;
  lowest_V: Float64Array;
  dawn_V: Float64Array;
  light_lm_h: Float64Array;
  aboveRated_s: Float64Array;
  /** Time with more than half, and more than a fifth, of the light at switching on. */
  aboveHalf_s: Float64Array;
  aboveFifth_s: Float64Array;
  shining_s: Float64Array;
}

/** Totals for a number of nights, nothing noted yet. */
export function emptyNightTotals(count: number): NightTotals {
  const zeros = () => new Float64Array(count);
  const unknown = () => new Float64Array(count).fill(Number.NaN);
  return {
    count,
    promised_s: zeros(),
    lit_s: zeros(),
    litBeyondPromise_s: zeros(),
    shortBy_s: SHORT_CAUSES.map(zeros),
    firstShort_s: unknown(),
    dusk_V: unknown(),
    lowest_V: unknown(),
    dawn_V: unknown(),
    light_lm_h: zeros(),
    aboveRated_s: zeros(),
    aboveHalf_s: zeros(),
    aboveFifth_s: zeros(),
    shining_s: zeros(),
  };
}
