import type { NightRow } from '../../sim/night/nightLedger.ts';

/** A kept night of six promised hours, with changes; short hours are out unless these say dim. */
export function nightRow(night: string, changes: Partial<NightRow> = {}): NightRow {
  const short_h = changes.short_h ?? 0;
  const out_h = short_h - (changes.dim_h ?? 0);
  return {
    winter: '2025 joined',
    night,
    complete: true,
    dusk_ms: 0,
    dawn_ms: 0,
    promised_h: 6,
    lit_h: 6 - short_h,
    short_h,
    dim_h: 0,
    out_h,
    wentOut: out_h > 0.25,
    litBeyondPromise_h: 0,
    outcome: short_h > 0.25 ? 'failed' : 'kept',
    cause: short_h > 0 ? 'ran-empty' : 'none',
    firstShort_ms: Number.NaN,
    lightOnCell_Wh_m2: 100,
    ghi_Wh_m2: 200,
    highestReachable_V: 2,
    capacitorDusk_V: 2,
    capacitorLowest_V: 1.5,
    capacitorDawn_V: 1.5,
    reserveDawn_J: 300,
    lightGiven_lm_h: 10,
    aboveRated_h: 0,
    snowOnLid_h: 0,
    filledWeather_h: 0,
    aboveHalf_h: 3,
    aboveFifth_h: 5,
    ...changes,
  };
}

/** Consecutive kept nights from an evening on, some with short hours by their date. */
export function nightsFrom(
  first: string,
  count: number,
  dark: Record<string, number> = {},
  changes: (night: string) => Partial<NightRow> = () => ({}),
): NightRow[] {
  return Array.from({ length: count }, (_, i) => {
    const night = new Date(Date.parse(first) + i * 86_400_000).toISOString().slice(0, 10);
    return nightRow(night, { short_h: dark[night] ?? 0, ...changes(night) });
  });
}
