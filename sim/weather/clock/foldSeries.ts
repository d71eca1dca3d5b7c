import { count, extent, range } from 'd3-array';
import { log } from '../../common/elementary/log.ts';
import { DAY_MS } from '../../common/time.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import {
  CLEAR_STEP_MIN,
  clearDay,
  clearDaysOf,
  clearIndexOf,
  meanOf,
  type SolarSamples,
} from './negativeLogLikelihood.ts';

/**
 * Irradiance with its stamps as the file claims them, for the sun to judge. Rows may be in any order, with gaps;
 * instantaneous values and means are treated alike (an instantaneous value's middle is its stamp).
 */
export interface SunSeries {
  /** Stamps in UTC milliseconds after applying the claimed zone, whatever they mark. */
  stamp_ms: Float64Array;
  /** Length of the measured interval (or distance of the samples), 10 s to 3 h. */
  step_s: number;
  /** Global horizontal irradiance, NaN where missing. */
  ghi_W_m2: Float64Array;
  /** Claimed, north positive. */
  latitude_deg: number;
  /** Claimed, east positive. */
  longitude_deg: number;
}

/** A series brought to true solar time and sorted into days, ready to be laid against clear days. */
export interface FoldedDays extends SolarSamples {
  /** Start of each day by the stamps, UTC milliseconds. */
  day_ms: Float64Array;
  equationOfTime_min: Float64Array;
  /** Days of the series with enough values, of which those here are a part. */
  usableDays: number;
  /** Sides of the night on which the record stops at a time of its clock; such hours are left out. */
  stops: StoppedHours['sides'];
}

/** Joined samples are at least this wide: a clock to ten minutes needs no finer ones. */
const LEAST_WIDTH_S = 600;
/** Share of a day's samples, and of the 24 hours around a sample, that must be there. */
const LEAST_COVER = 0.85;
/** Light at which the rows of a night may begin or end. */
const FAINT_W_M2 = 60;

/**
 * Folds a series by true solar time: samples of at least ten minutes, the night reading taken off, and for each
 * the clearness of the 24 hours around it. Long series are thinned to whole days spread evenly.
 *
 * in: series; mostSamples, cap on the samples kept
 * out: the folded days (columns allocated here); no days where the series has none with enough values
 * valid: night readings within 10 W/m2 of zero are taken off; a day is by the stamps, not by the sun
 */
export function foldSeries(series: SunSeries, mostSamples = 40_000): FoldedDays {
  const grid = joinRows(series);
  const { perDay, step_min, grain_W_m2 } = grid;
  const usable = usableDays(grid);
  const stride = Math.max(1, Math.ceil((usable.length * perDay) / mostSamples));
  const chosen = usable.filter((_, i) => i % stride === 0);
  const around_W_m2 = meansAround(grid);
  const { silent, sides } = stoppedHours(grid.ghi_W_m2, perDay, 2 * grain_W_m2);
  const told = (cell: number) => silent[cell % perDay] === 0 && !Number.isNaN(grid.ghi_W_m2[cell]!);

  const day_ms = Float64Array.from(chosen, (day) => grid.start_ms + day * DAY_MS);
  const suns = Array.from(day_ms, (ms) => sunOfDay(ms + DAY_MS / 2));
  const cells: number[] = [];
  const dayOf: number[] = [];
  const dayFirst = new Uint32Array(chosen.length);
  const dayEnd = new Uint32Array(chosen.length);
  for (let d = 0; d < chosen.length; d++) {
    const first = chosen[d]! * perDay;
    dayFirst[d] = cells.length;
    for (let cell = first; cell < first + perDay; cell++) {
      if (!told(cell) || Number.isNaN(around_W_m2[cell]!)) continue;
      cells.push(cell);
      dayOf.push(d);
    }
    dayEnd[d] = cells.length;
  }
  const clearIndex = Uint16Array.from(dayOf, (d) => clearIndexOf(suns[d]!.declination_deg));
  const clearDays = clearDaysOf(series.latitude_deg, step_min, new Set(clearIndex));
  const mean_W_m2 = clearDays.map(meanOf);
  const ghi_W_m2 = Float64Array.from(cells, (cell) => Math.max(0, grid.ghi_W_m2[cell]!));
  return {
    step_min,
    phase_min: Float64Array.from(cells, (cell, i) => {
      const { equationOfTime_min } = suns[dayOf[i]!]!;
      const solar = (grid.stamp_ms[cell]! / 60_000 + series.longitude_deg * 4 + equationOfTime_min) % 1440;
      return solar < 0 ? solar + 1440 : solar;
    }),
    ghi_W_m2,
    logGhi: ghi_W_m2.map((value) => log(value + grain_W_m2)),
    clearness: Float64Array.from(cells, (cell, i) =>
      clearnessOf(around_W_m2[cell]! / mean_W_m2[clearIndex[i]!]!),
    ),
    clearIndex,
    clearDays,
    follows: Uint8Array.from(cells, (cell, i) => (dayOf[i] === dayOf[i - 1] && told(cell - 1) ? 1 : 0)),
    dayFirst,
    dayEnd,
    shift_min: new Float64Array(chosen.length),
    day_ms,
    equationOfTime_min: Float64Array.from(suns, (sun) => sun.equationOfTime_min),
    grain_W_m2,
    usableDays: usable.length,
    stops: sides,
  };
}

/** Some of the days, by their places among all. */
export function someDays(days: FoldedDays, which: readonly number[]): FoldedDays {
  return {
    ...days,
    dayFirst: Uint32Array.from(which, (d) => days.dayFirst[d]!),
    dayEnd: Uint32Array.from(which, (d) => days.dayEnd[d]!),
    shift_min: Float64Array.from(which, (d) => days.shift_min[d]!),
    day_ms: Float64Array.from(which, (d) => days.day_ms[d]!),
    equationOfTime_min: Float64Array.from(which, (d) => days.equationOfTime_min[d]!),
  };
}

/** Every so many of the days. */
export function everyDay(days: FoldedDays, stride: number): FoldedDays {
  return stride <= 1 ? days : someDays(days, range(0, days.day_ms.length, stride));
}

/**
 * Folded days as they would be at another latitude: its clear days and, beside them, the clearness (dimensionless).
 * For asking whether the claimed place is the right one.
 *
 * in: days, as folded; latitude_deg, the other one, north positive
 * out: new columns for what changes, the same ones for what does not
 */
export function foldAt(days: FoldedDays, latitude_deg: number): FoldedDays {
  const clearDays = clearDaysOf(latitude_deg, days.step_min, new Set(days.clearIndex));
  const scale = clearDays.map((means, index) => meanOf(days.clearDays[index]!) / meanOf(means));
  const clearness = days.clearness.map((value, i) => clearnessOf(value * scale[days.clearIndex[i]!]!));
  return { ...days, clearDays, clearness };
}

function clearnessOf(share: number): number {
  return Math.max(0.02, share);
}

interface Grid {
  start_ms: number;
  step_min: number;
  perDay: number;
  stamp_ms: Float64Array;
  /** Above the sensor's night reading; NaN where too few rows fell into the cell. */
  ghi_W_m2: Float64Array;
  grain_W_m2: number;
}

/** Rows joined into equal cells counted from the midnight before the first stamp. */
function joinRows({ stamp_ms, ghi_W_m2, step_s }: SunSeries): Grid {
  const [first = 0, last = -1] = extent(stamp_ms);
  const width_s = joinedWidth_s(step_s);
  const perDay = Math.round(86_400 / width_s);
  const width_ms = DAY_MS / perDay;
  const start_ms = Math.floor(first / DAY_MS) * DAY_MS;
  const cells = (Math.floor((last - start_ms) / DAY_MS) + 1) * perDay;
  const stamp = new Float64Array(cells);
  const ghi = new Float64Array(cells);
  const rows = new Uint32Array(cells);
  for (let i = 0; i < stamp_ms.length; i++) {
    const value = ghi_W_m2[i]!;
    if (Number.isNaN(value)) continue;
    const cell = Math.floor((stamp_ms[i]! - start_ms) / width_ms);
    stamp[cell]! += stamp_ms[i]! - start_ms;
    ghi[cell]! += value;
    rows[cell]!++;
  }
  const least = Math.max(1, 0.8 * (width_s / step_s));
  for (let cell = 0; cell < cells; cell++) {
    const n = rows[cell]!;
    ghi[cell] = n >= least ? ghi[cell]! / n : Number.NaN;
    stamp[cell] = start_ms + (n > 0 ? stamp[cell]! / n : cell * width_ms);
  }
  fillOmittedNights(ghi, perDay);
  const { level_W_m2, grain_W_m2 } = nightReading(ghi);
  const above_W_m2 = ghi.map((value) => value - level_W_m2);
  return { start_ms, step_min: width_ms / 60_000, perDay, stamp_ms: stamp, ghi_W_m2: above_W_m2, grain_W_m2 };
}

/**
 * Files that leave out the rows of the night: where more than half of the days have a gap of 4 to 20 hours between two
 * faint values, such gaps are dark. The stamps filled are those of the cells' starts, which a dark cell hardly needs.
 */
function fillOmittedNights(ghi: Float64Array, perDay: number): void {
  const gaps: [number, number][] = [];
  let last = -1;
  for (let cell = 0; cell < ghi.length; cell++) {
    if (Number.isNaN(ghi[cell]!)) continue;
    const hours = ((cell - last - 1) * 24) / perDay;
    if (last >= 0 && hours >= 4 && hours <= 20 && ghi[cell]! < FAINT_W_M2 && ghi[last]! < FAINT_W_M2) {
      gaps.push([last + 1, cell]);
    }
    last = cell;
  }
  if (gaps.length < ghi.length / perDay / 2) return;
  for (const [from, to] of gaps) ghi.fill(0, from, to);
}

/** Least multiple of the step that is ten minutes or more and divides the day; the step itself where it is longer. */
function joinedWidth_s(step_s: number): number {
  if (step_s >= LEAST_WIDTH_S) return step_s;
  for (let width = Math.ceil(LEAST_WIDTH_S / step_s) * step_s; width <= 3600; width += step_s) {
    if (Math.abs(86_400 / width - Math.round(86_400 / width)) < 1e-9) return width;
  }
  return LEAST_WIDTH_S;
}

/** Days, counted from the grid's start, on which enough cells hold a value and some light fell. */
function usableDays({ ghi_W_m2, perDay }: Grid): number[] {
  const days = Array.from({ length: ghi_W_m2.length / perDay }, (_, day) => day);
  return days.filter((day) => {
    const values = ghi_W_m2.subarray(day * perDay, (day + 1) * perDay);
    const [least = 0, most = 0] = extent(values);
    return count(values) >= LEAST_COVER * perDay && most > least;
  });
}

/** Mean light of the 24 hours around each cell; NaN where too few of them hold a value. */
function meansAround({ ghi_W_m2, perDay }: Grid): Float64Array {
  const cells = ghi_W_m2.length;
  const sum = new Float64Array(cells + 1);
  const cover = new Uint32Array(cells + 1);
  for (let cell = 0; cell < cells; cell++) {
    const value = ghi_W_m2[cell]!;
    const there = !Number.isNaN(value);
    sum[cell + 1] = sum[cell]! + (there ? Math.max(0, value) : 0);
    cover[cell + 1] = cover[cell]! + (there ? 1 : 0);
  }
  return ghi_W_m2.map((_, cell) => {
    const low = Math.max(0, cell - (perDay >> 1));
    const high = Math.min(cells, low + perDay);
    const covered = cover[high]! - cover[low]!;
    return covered < LEAST_COVER * perDay ? Number.NaN : (sum[high]! - sum[low]!) / covered;
  });
}

/** What the sensor reads in the dark (middle of the lowest fifth, within 10 W/m2 of zero), and its grain. */
function nightReading(ghi_W_m2: Float64Array): { level_W_m2: number; grain_W_m2: number } {
  const values = ghi_W_m2.filter((value) => !Number.isNaN(value)).sort();
  if (values.length === 0) return { level_W_m2: 0, grain_W_m2: 2 };
  const at = (share: number): number => values[Math.floor(share * (values.length - 1))]!;
  const level = Math.min(10, Math.max(-10, at(0.1)));
  const spread = at(0.2) - at(0.02);
  const quantum = (values.find((value) => value > level + 1e-6) ?? level) - level;
  return { level_W_m2: level, grain_W_m2: Math.min(12, Math.max(2, spread, quantum)) };
}

/** Times of the day, by the stamps, at which a record reads nothing although the sun was up till then. */
export interface StoppedHours {
  /** 1 for each cell of the day that says nothing, the last with light before the darkness included. */
  silent: Uint8Array;
  /** On which side of the night: 'evening' where the record breaks off, 'morning' where it begins late. */
  sides: ('morning' | 'evening')[];
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
  const sides: StoppedHours['sides'] = [];
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
