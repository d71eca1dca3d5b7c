import { count, cumsum, extent, range } from 'd3-array';
import { log } from '../../common/elementary/log.ts';
import { DAY_MS } from '../../common/time.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import {
  clearDaysOf,
  clearIndexOf,
  type FoldedDay,
  meanOf,
  type SolarSamples,
} from './negativeLogLikelihood.ts';
import { type NightSide, stoppedHours } from './stoppedHours.ts';

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
export interface FoldedSeries extends SolarSamples {
  /** All days with enough values, of which `days` are a part. */
  allDays: FoldedDay[];
  /** Sides of the night on which the record stops at a time of its clock; such hours are left out. */
  stops: NightSide[];
}

/** Joined samples are at least this wide: a clock to ten minutes needs no finer ones. */
const LEAST_WIDTH_S = 600;
/** Share of a day's samples, and of the 24 hours around a sample, that must be there. */
const LEAST_COVER = 0.85;
/** Light at which the rows of a night may begin or end. */
const FAINT_W_M2 = 60;
/** Samples looked at: of longer series whole days spread evenly. */
const MOST_SAMPLES = 40_000;

/**
 * Folds a series by true solar time: samples of at least ten minutes, the night reading taken off, and for each
 * the clearness of the 24 hours around it. Of long series some days are to be looked at, spread evenly.
 *
 * in: series
 * out: the folded series (columns allocated here); no days where it has none with enough values
 * valid: night readings within 10 W/m2 of zero are taken off; a day is by the stamps, not by the sun
 */
export function foldSeries(series: SunSeries): FoldedSeries {
  const grid = joinRows(series);
  const { perDay, step_min, grain_W_m2 } = grid;
  const around_W_m2 = meansAround(grid);
  const { silent, sides } = stoppedHours(grid.ghi_W_m2, perDay, 2 * grain_W_m2);
  const told = (cell: number) => silent[cell % perDay] === 0 && !Number.isNaN(grid.ghi_W_m2[cell]!);
  const cells: number[] = [];
  const clearIndices: number[] = [];
  const phases_min: number[] = [];
  const follows: number[] = [];
  const allDays = usableDays(grid).map((day): FoldedDay => {
    const ms = grid.start_ms + day * DAY_MS;
    const { declination_deg, equationOfTime_min } = sunOfDay(ms + DAY_MS / 2);
    const first = cells.length;
    for (let cell = day * perDay; cell < (day + 1) * perDay; cell++) {
      if (!told(cell) || Number.isNaN(around_W_m2[cell]!)) continue;
      const solar = (grid.stamp_ms[cell]! / 60_000 + series.longitude_deg * 4 + equationOfTime_min) % 1440;
      phases_min.push(solar < 0 ? solar + 1440 : solar);
      follows.push(cells.length > first && told(cell - 1) ? 1 : 0);
      clearIndices.push(clearIndexOf(declination_deg));
      cells.push(cell);
    }
    return { ms, first, end: cells.length, equationOfTime_min, shift_min: 0 };
  });
  const clearDays = clearDaysOf(series.latitude_deg, step_min, new Set(clearIndices));
  const mean_W_m2 = clearDays.map(meanOf);
  const ghi_W_m2 = Float64Array.from(cells, (cell) => Math.max(0, grid.ghi_W_m2[cell]!));
  const folded = {
    ...{ step_min, grain_W_m2, clearDays, ghi_W_m2, allDays, days: allDays, stops: sides },
    phase_min: Float64Array.from(phases_min),
    follows: Uint8Array.from(follows),
    logGhi: ghi_W_m2.map((value) => log(value + grain_W_m2)),
    clearIndex: Uint16Array.from(clearIndices),
    clearness: Float64Array.from(cells, (cell, i) =>
      clearnessOf(around_W_m2[cell]! / mean_W_m2[clearIndices[i]!]!),
    ),
  };
  return everyDay(folded, Math.ceil((allDays.length * perDay) / MOST_SAMPLES));
}

/** A series of which only every so many of the days are looked at. */
export function everyDay(folded: FoldedSeries, stride: number): FoldedSeries {
  return stride <= 1 ? folded : { ...folded, days: folded.days.filter((_, d) => d % stride === 0) };
}

/** A series with what the clock of each of its days is ahead, minutes. */
export function shifted(folded: FoldedSeries, shift_min: readonly number[]): FoldedSeries {
  return { ...folded, days: folded.days.map((day, d) => ({ ...day, shift_min: shift_min[d]! })) };
}

/**
 * A folded series as it would be at another latitude: its clear days and, beside them, the clearness (dimensionless).
 * For asking whether the claimed place is the right one.
 *
 * in: folded; latitude_deg, the other one, north positive
 * out: new columns for what changes, the same ones for what does not
 */
export function foldAt(folded: FoldedSeries, latitude_deg: number): FoldedSeries {
  const wanted = Object.keys(folded.clearDays).map(Number);
  const clearDays = clearDaysOf(latitude_deg, folded.step_min, wanted);
  const scale = clearDays.map((means, index) => meanOf(folded.clearDays[index]!) / meanOf(means));
  const clearness = folded.clearness.map((value, i) => clearnessOf(value * scale[folded.clearIndex[i]!]!));
  return { ...folded, clearDays, clearness };
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
  const widths = range(Math.ceil(LEAST_WIDTH_S / step_s) * step_s, 3601, step_s);
  return (
    widths.find((width) => Math.abs(86_400 / width - Math.round(86_400 / width)) < 1e-9) ?? LEAST_WIDTH_S
  );
}

/** Days, counted from the grid's start, on which enough cells hold a value and some light fell. */
function usableDays({ ghi_W_m2, perDay }: Grid): number[] {
  return range(ghi_W_m2.length / perDay).filter((day) => {
    const values = ghi_W_m2.subarray(day * perDay, (day + 1) * perDay);
    const [least = 0, most = 0] = extent(values);
    return count(values) >= LEAST_COVER * perDay && most > least;
  });
}

/** Mean light of the 24 hours around each cell; NaN where too few of them hold a value. */
function meansAround({ ghi_W_m2, perDay }: Grid): Float64Array {
  const light = cumsum(ghi_W_m2, (value) => Math.max(0, value));
  const cover = cumsum(ghi_W_m2, (value) => (Number.isNaN(value) ? 0 : 1));
  return ghi_W_m2.map((_, cell) => {
    const before = Math.max(0, cell - (perDay >> 1)) - 1;
    const last = Math.min(ghi_W_m2.length - 1, before + perDay);
    const within = (sums: Float64Array): number => sums[last]! - (sums[before] ?? 0);
    return within(cover) < LEAST_COVER * perDay ? Number.NaN : within(light) / within(cover);
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
