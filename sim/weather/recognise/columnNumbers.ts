import { mean, mode, quantile, range, rollup } from 'd3-array';
import { HOUR_MS } from '../../common/time.ts';
import { parseDecimal } from '../../tables/parseNumber.ts';
import { toCanonical, type UnitName } from '../../tables/units.ts';
import { hasCodeShape } from '../read/rowValues.ts';
import type { Seen } from './clearDays.ts';
import { isLight, type Layout, type QuantityName } from './DetectedFormat.ts';

/** Times of a sample and its place on the globe, as far as they are known. */
export interface SampleTimes extends Omit<Seen, 'values'> {
  /** What the clock is ahead of UTC, as far as claimed. */
  offset_ms: number;
  longitude_deg?: number | undefined;
}

/** The rows of a sample. */
export interface ColumnSample extends SampleTimes {
  layout: Layout;
  rows: readonly string[][];
  /** They hold no values. */
  stampColumns: ReadonlySet<number>;
}

/**
 * The numbers of all columns of a sample, codes for 'missing' taken out, and which of them are running sums; of those
 * what was added from row to row.
 *
 * in: sample
 * out: one list a column, undefined where it has no number
 */
export function columnNumbers(sample: ColumnSample): {
  values: (Float64Array | undefined)[];
  running: Set<number>;
} {
  const { layout, rows, wall_ms, step_s, stampColumns } = sample;
  const running = new Set<number>();
  const width = Math.max(layout.width, layout.headings.length);
  const values = Array.from({ length: width }, (_, column) => {
    if (stampColumns.has(column)) return undefined;
    const written = columnValues(rows, column, layout);
    const stand = written.map((value) => (hasCodeShape(value) ? Number.NaN : value));
    // A counter may have come to numbers that are written as codes are.
    const added =
      addedByRow(stand, wall_ms, step_s) ??
      (written.some(hasCodeShape) ? addedByRow(written, wall_ms, step_s) : undefined);
    if (added !== undefined) running.add(column);
    const numbers = added ?? stand;
    return numbers.some((value) => !Number.isNaN(value)) ? numbers : undefined;
  });
  return { values, running };
}

/**
 * The numbers of one column of a sample, as they stand in the file.
 *
 * in: rows; column, 0-based; layout, for its decimal mark
 * out: one value a row, NaN where there is no number
 */
export function columnValues(
  rows: readonly string[][],
  column: number,
  { decimal, thousands }: Pick<Layout, 'decimal' | 'thousands'>,
): Float64Array {
  return Float64Array.from(rows, (cells) => parseDecimal(cells[column] ?? '', decimal === ',', thousands));
}

/** A sum that starts anew falls below this share of what it was. */
const FALLS_TO = 0.3;
const FEWEST_FALLS = 5;
/** So many of its falls come at the same hour of the clock. */
const ALIKE = 0.9;
/** A counter is set back seldom, goes up in this share of all rows, and in so many hours of the clock in next to none. */
const MOST_RESETS = 3;
const GOES_UP = 0.1;
const STILL_HOURS = 3;
const STILL = 0.02;

/**
 * What was added from row to row, where a column holds running sums: they never fall but to near nothing, either at one
 * hour of the clock, as what starts anew each day, or next to never, as a counter that stands still by night.
 *
 * in: values of a sample; wall_ms, clock of each row; step_s of the rows
 * out: one value a row, NaN where the row before is missing; undefined where the column holds no such sums
 */
function addedByRow(values: Float64Array, wall_ms: Float64Array, step_s: number): Float64Array | undefined {
  const added = new Float64Array(values.length).fill(Number.NaN);
  /** Hours of the clock at which it falls. */
  const falls: number[] = [];
  let days = 0;
  for (let i = 1; i < values.length; i++) {
    const [before, now] = [values[i - 1]!, values[i]!];
    if (wall_ms[i]! - wall_ms[i - 1]! !== step_s * 1000 || Number.isNaN(now - before)) continue;
    if (before < 0 || now < 0 || (now < before && now > FALLS_TO * before)) return undefined;
    days += step_s / 86_400;
    added[i] = now < before ? now : now - before;
    if (now < before) falls.push(Math.floor((wall_ms[i]! / HOUR_MS) % 24));
  }
  const usual = mode(falls);
  const most = falls.filter((hour) => hour === usual).length;
  const startsDaily = falls.length >= FEWEST_FALLS && most >= ALIKE * falls.length;
  if (startsDaily && falls.length <= 1.2 * days + 2) return added;
  return falls.length <= MOST_RESETS && comesByDay(added, wall_ms) ? added : undefined;
}

/** Whether what is added comes as daylight does: often, and in some hours of the clock hardly ever. */
function comesByDay(added: Float64Array, wall_ms: Float64Array): boolean {
  const rows = range(added.length).filter((i) => !Number.isNaN(added[i]!));
  const goesUp = (list: readonly number[]) => mean(list, (i) => (added[i]! > 0 ? 1 : 0)) ?? 0;
  const byHour = [...rollup(rows, goesUp, (i) => Math.floor((wall_ms[i]! / HOUR_MS) % 24)).values()];
  return goesUp(rows) >= GOES_UP && byHour.filter((share) => share <= STILL).length >= STILL_HOURS;
}

/**
 * Numbers that say 'missing' although they could be values: written as codes are, standing at hours at which the
 * quantity is always something else (999 W/m2 in the night).
 *
 * in: values of a sample as they stand, times; quantity, unit
 * out: such numbers
 */
export function codesWithin(
  values: Float64Array,
  wall_ms: Float64Array,
  quantity: QuantityName,
  unit: UnitName,
): number[] {
  if (!isLight(quantity)) return [];
  const rows = range(values.length).filter((i) => !Number.isNaN(values[i]! + wall_ms[i]!));
  const suspects = rows.filter((i) => hasCodeShape(values[i]!));
  if (suspects.length === 0) return [];
  const hourOf = (i: number): number => new Date(wall_ms[i]!).getUTCHours();
  const size_W_m2 = (value: number): number => Math.abs(toCanonical(value, unit, 3600));
  const usual = rollup(
    rows.filter((i) => !hasCodeShape(values[i]!)),
    (list) => quantile(list, 0.9, (i) => values[i]!)!,
    hourOf,
  );
  const counts = rollup(
    suspects.filter((i) => size_W_m2(values[i]!) > 50 + 20 * size_W_m2(usual.get(hourOf(i)) ?? 0)),
    (list) => list.length,
    (i) => values[i]!,
  );
  return [...counts].filter(([, count]) => count >= 2).map(([value]) => value);
}
