import { CLEAR_STEP_MIN, clearDay } from './negativeLogLikelihood.ts';

/** A side of the night on which a record stops with the sun up: 'evening' where it breaks off, 'morning' where it begins late. */
export type NightSide = 'morning' | 'evening';

/** Times of the day, by the stamps, at which a record reads nothing although the sun was up till then. */
interface StoppedHours {
  /** 1 for each cell of the day that says nothing, the last with light before the darkness included. */
  silent: Uint8Array;
  /** On which sides of the night. */
  sides: NightSide[];
}

/** Light before a night is at most this many times what a clear sky of the tropics has in the step before sunset. */
const STEEPEST = 1.2;
/** Share of the days on which a cell must be so bright, and may be lit though it counts as dark. */
const BRIGHT_SHARE = 0.05;
const STRAY_SHARE = 0.01;
const LEAST_BRIGHT_DAYS = 3;

/**
 * Whether a record stops or begins at a time of the clock while the sun is up: a logger that is switched off, rows
 * that were cut away. No sunset is so steep: light falls over the last step of a day to none in all later ones.
 *
 * in: ghi_W_m2, days of equal cells one after the other, night reading taken off, NaN where missing; perDay; faint_W_m2
 * out: the silent cells of a day, from the last with light to the middle of the dark; no sides where none is silent
 */
export function stoppedHours(ghi_W_m2: Float64Array, perDay: number, faint_W_m2: number): StoppedHours {
  const step_min = 1440 / perDay;
  const clear = clearDay(0, 0, step_min);
  const steep_W_m2 = STEEPEST * clear[Math.round((1080 - step_min / 2) / CLEAR_STEP_MIN)]!;
  const lit = new Uint32Array(perDay);
  const bright = new Uint32Array(perDay);
  for (let cell = 0; cell < ghi_W_m2.length; cell++) {
    if (ghi_W_m2[cell]! > faint_W_m2) lit[cell % perDay]!++;
    if (ghi_W_m2[cell]! > steep_W_m2) bright[cell % perDay]!++;
  }
  const days = ghi_W_m2.length / perDay;
  const silent = new Uint8Array(perDay);
  const sides: NightSide[] = [];
  const { first, length } = longestDark(lit, STRAY_SHARE * days);
  if (length === 0 || length === perDay) return { silent, sides };
  const least = Math.max(LEAST_BRIGHT_DAYS, BRIGHT_SHARE * days);
  const half = Math.ceil(length / 2);
  const at = (cell: number) => (cell + 2 * perDay) % perDay;
  for (const [side, edge, inward] of [
    ['evening', first, 1],
    ['morning', first + length - 1, -1],
  ] as const) {
    if (bright[at(edge - inward)]! < least) continue;
    sides.push(side);
    for (let k = -1; k < half; k++) silent[at(edge + inward * k)] = 1;
  }
  return { silent, sides };
}

/** The longest run of cells that are hardly ever lit, round the clock. */
function longestDark(lit: Uint32Array, stray: number): { first: number; length: number } {
  const perDay = lit.length;
  let best = { first: 0, length: 0 };
  let length = 0;
  for (let i = 0; i < 2 * perDay; i++) {
    length = lit[i % perDay]! <= stray ? Math.min(perDay, length + 1) : 0;
    if (length > best.length) best = { first: (i - length + 1) % perDay, length };
  }
  return best;
}
