import { HOUR_MS } from '../../common/time.ts';
import type { QuantityName } from '../recognise/DetectedFormat.ts';
import { JOINED_S, type RowKeeper } from './stepJoiner.ts';

const CELL_MS = JOINED_S * 1000;
/** A silence longer than this is a gap, whatever came before and after. */
const LONGEST_HOLD_MS = 3 * HOUR_MS;

/**
 * Rows at irregular times, taken as samples joined by straight lines: time-weighted means over cells of ten
 * minutes, whose stamp is their middle.
 *
 * in: quantities; sums, whether each is a sum since the row before (rain) or a state; usual_ms, usual distance of rows
 * out: the keeper; a silence of more than four usual distances (at least 30 minutes, at most 3 hours) is a gap
 */
export function loggerKeeper(
  quantities: readonly QuantityName[],
  sums: readonly boolean[],
  usual_ms: number,
): RowKeeper {
  const hold_ms = Math.min(LONGEST_HOLD_MS, Math.max(1_800_000, 4 * usual_ms));
  const cells = new Map<
    number,
    { integral: Float64Array; covered: Float64Array; line: number; file: number }
  >();
  let before_ms = Number.NaN;
  const before = new Float64Array(quantities.length);
  const cellAt = (index: number, line: number, file: number) => {
    let cell = cells.get(index);
    if (cell === undefined) {
      cell = {
        integral: new Float64Array(quantities.length),
        covered: new Float64Array(quantities.length),
        line,
        file,
      };
      cells.set(index, cell);
    }
    return cell;
  };
  return {
    add: (stamp_ms, values, line, file) => {
      const span = stamp_ms - before_ms;
      if (span > 0 && span <= hold_ms) {
        for (let from = before_ms; from < stamp_ms; ) {
          const index = Math.floor(from / CELL_MS);
          const to = Math.min(stamp_ms, (index + 1) * CELL_MS);
          const cell = cellAt(index, line, file);
          const a = (from - before_ms) / span;
          const b = (to - before_ms) / span;
          for (let q = 0; q < values.length; q++) {
            const end = values[q]!;
            if (Number.isNaN(end) || (!sums[q] && Number.isNaN(before[q]!))) continue;
            cell.integral[q] =
              cell.integral[q]! +
              (sums[q] ? end * (b - a) : (before[q]! + (end - before[q]!) * ((a + b) / 2)) * (to - from));
            cell.covered[q] = cell.covered[q]! + (to - from);
          }
          from = to;
        }
      }
      before_ms = stamp_ms;
      before.set(values);
    },
    finish: () => {
      const indices = Float64Array.from(cells.keys()).sort();
      const list = Array.from(indices, (index) => cells.get(index)!);
      const column = (of: (cell: (typeof list)[0], q: number) => number) =>
        Object.fromEntries(
          quantities.map((quantity, q) => [quantity, Float64Array.from(list, (cell) => of(cell, q))]),
        );
      return {
        stamp_ms: indices.map((index) => (index + 0.5) * CELL_MS),
        step_s: JOINED_S,
        line: Uint32Array.from(list, ({ line }) => line),
        file: Uint8Array.from(list, ({ file }) => file),
        columns: column((cell, q) =>
          cell.covered[q] === 0
            ? Number.NaN
            : sums[q]
              ? (cell.integral[q]! / cell.covered[q]!) * CELL_MS
              : cell.integral[q]! / cell.covered[q]!,
        ),
        seen: column((cell, q) => cell.covered[q]! / CELL_MS),
      };
    },
  };
}
