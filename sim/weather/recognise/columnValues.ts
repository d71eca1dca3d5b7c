import { HOUR_MS } from '../../common/time.ts';
import { parseDecimal } from '../../tables/parseNumber.ts';
import type { Layout } from './DetectedFormat.ts';

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

/**
 * What was added from row to row, where a column holds sums that run through the day and start anew at its end (they
 * never fall but at one hour of the clock, to near nothing).
 *
 * in: values of a sample; wall_ms, clock of each row; step_s of the rows
 * out: one value a row, NaN where the row before is missing; undefined where the column holds no such sums
 */
export function addedByRow(
  values: Float64Array,
  wall_ms: Float64Array,
  step_s: number,
): Float64Array | undefined {
  const added = new Float64Array(values.length).fill(Number.NaN);
  const falls = new Map<number, number>();
  let count = 0;
  let days = 0;
  for (let i = 1; i < values.length; i++) {
    const [before, now] = [values[i - 1]!, values[i]!];
    if (wall_ms[i]! - wall_ms[i - 1]! !== step_s * 1000 || Number.isNaN(now - before)) continue;
    if (before < 0 || now < 0) return undefined;
    days += step_s / 86_400;
    added[i] = now < before ? now : now - before;
    if (now >= before) continue;
    count++;
    if (now > FALLS_TO * before) return undefined;
    const hour = Math.floor((wall_ms[i]! / HOUR_MS) % 24);
    falls.set(hour, (falls.get(hour) ?? 0) + 1);
  }
  const most = Math.max(0, ...falls.values());
  return count >= FEWEST_FALLS && most >= ALIKE * count && count <= 1.2 * days + 2 ? added : undefined;
}
