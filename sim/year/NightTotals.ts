/** Why promised time was short; the number is the row of NightTotals.shortBy_s. */
export const SHORT_CAUSES = [
  'still-empty',
  'ran-empty',
  'switched-on-late',
  'too-dim',
  // Stopped since before it was to switch on, though the capacitor stood above the cut-off then.
  'locked-out',
  'not-scheduled',
] as const;

export type ShortCause = (typeof SHORT_CAUSES)[number];

/** The one cause with the LED on: promised time short for any other is out. */
export const DIM = SHORT_CAUSES.indexOf('too-dim');

/** Quantities that begin at 0. */
export const NIGHT_SUMS = [
  'promised_s',
  'lit_s',
  'litBeyondPromise_s',
  'light_lm_h',
  'aboveRated_s',
  // Time with more than half, and more than a fifth, of the light at switching on.
  'aboveHalf_s',
  'aboveFifth_s',
  'shining_s',
] as const;

/** Quantities that are NaN where there is none; firstShort_s is the first short instant in promised time. */
const FOUND = ['firstShort_s', 'dusk_V', 'lowest_V', 'dawn_V'] as const;

/** What the hourly loop noted of each night, one typed column a quantity. Seconds count from the start of the record. */
export interface NightTotals
  extends Record<(typeof NIGHT_SUMS)[number] | (typeof FOUND)[number], Float64Array> {
  count: number;
  /** One column for each entry of SHORT_CAUSES. */
  shortBy_s: readonly Float64Array[];
}

/** Totals for a number of nights, nothing noted yet. */
export function emptyNightTotals(count: number): NightTotals {
  const zeros = () => new Float64Array(count);
  const columns = Object.fromEntries([
    ...NIGHT_SUMS.map((name) => [name, zeros()]),
    ...FOUND.map((name) => [name, zeros().fill(Number.NaN)]),
  ]);
  return { count, shortBy_s: SHORT_CAUSES.map(zeros), ...columns };
}
