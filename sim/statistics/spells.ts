import type { NightRow } from '../night/NightRow.ts';
import type { Fortnight, Spell } from './types.ts';

/**
 * The longest run of consecutive failed nights, the earliest of equals; undefined where none failed.
 *
 * in: rows, one winter in the order of the season (for a joined year July first, so that spells run over the seam)
 */
export function longestSpell(rows: readonly NightRow[]): Spell | undefined {
  let best: Spell | undefined;
  let first = -1;
  for (let i = 0; i <= rows.length; i++) {
    if (i < rows.length && rows[i]!.outcome === 'failed') {
      if (first < 0) first = i;
    } else if (first >= 0) {
      const nights = i - first;
      if (best === undefined || nights > best.nights) {
        best = { from: rows[first]!.night, to: rows[i - 1]!.night, nights };
      }
      first = -1;
    }
  }
  return best;
}

const FORTNIGHT = 14;

/**
 * The 14 nights running with most short hours; among equals the one with least light on the cell.
 *
 * in: rows, as for longestSpell
 * out: undefined where there are fewer than 14 nights
 */
export function darkestFortnight(rows: readonly NightRow[]): Fortnight | undefined {
  let best: Fortnight | undefined;
  for (let i = 0; i + FORTNIGHT <= rows.length; i++) {
    let short_h = 0;
    let light = 0;
    for (let j = i; j < i + FORTNIGHT; j++) {
      short_h += rows[j]!.short_h;
      light += rows[j]!.lightOnCell_Wh_m2;
    }
    const darker = best === undefined || short_h > best.short_h + 1e-9;
    const duller =
      best !== undefined && Math.abs(short_h - best.short_h) <= 1e-9 && light < best.lightOnCell_Wh_m2;
    if (!darker && !duller) continue;
    const span = rows.slice(i, i + FORTNIGHT);
    const lowest_V = span.map((row) => row.capacitorLowest_V).filter((volts) => !Number.isNaN(volts));
    best = {
      from: span[0]!.night,
      to: span[FORTNIGHT - 1]!.night,
      short_h,
      failedNights: span.filter((row) => row.outcome === 'failed').length,
      lightOnCell_Wh_m2: light,
      lowestCapacitor_V: lowest_V.length === 0 ? Number.NaN : Math.min(...lowest_V),
    };
  }
  return best;
}
