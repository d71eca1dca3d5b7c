import { HOUR_MS } from '../../common/time.ts';
import type { QuantityName } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';

/** Rows are joined to this width. */
export const JOINED_S = 600;
const JOINED_MS = JOINED_S * 1000;

/** Takes rows in the order of time, gives columns. */
export interface RowKeeper {
  add: (stamp_ms: number, values: Float64Array, line: number, file: number) => void;
  finish: () => Pick<NativeSeries, 'stamp_ms' | 'step_s' | 'columns' | 'line' | 'file' | 'seen' | 'edges'>;
}

type Room = Float64Array | Uint32Array | Uint16Array | Uint8Array;

/** A column that grows; doubles its room. Small whole numbers take small room: long records have many rows. */
class Growing<T extends Room> {
  #room: T;
  #count = 0;
  readonly #make: (length: number) => T;

  constructor(make: (length: number) => T) {
    this.#make = make;
    this.#room = make(1024);
  }

  push(value: number): void {
    if (this.#count === this.#room.length) {
      const more = this.#make(this.#room.length * 2);
      more.set(this.#room);
      this.#room = more;
    }
    this.#room[this.#count++] = value;
  }

  set(i: number, value: number): void {
    this.#room[i] = value;
  }

  get(i: number): number {
    return this.#room[i]!;
  }

  /** What was pushed, as a view of the room. */
  done(): T {
    return this.#room.subarray(0, this.#count) as T;
  }
}

const numbers = (): Growing<Float64Array> => new Growing((length) => new Float64Array(length));
const counts = (): Growing<Uint16Array> => new Growing((length) => new Uint16Array(length));
const lineNumbers = (): Growing<Uint32Array> => new Growing((length) => new Uint32Array(length));
const fileNumbers = (): Growing<Uint8Array> => new Growing((length) => new Uint8Array(length));

/**
 * Keeps every row as it comes.
 *
 * in: quantities, one for each value of a row; step_s, seconds a row stands for
 * out: the keeper
 */
export function rowKeeper(quantities: readonly QuantityName[], step_s: number): RowKeeper {
  const stamp = numbers();
  const lines = lineNumbers();
  const files = fileNumbers();
  const columns = quantities.map(numbers);
  return {
    add: (stamp_ms, values, line, file) => {
      stamp.push(stamp_ms);
      lines.push(line);
      files.push(file);
      for (let q = 0; q < columns.length; q++) columns[q]!.push(values[q]!);
    },
    finish: () => ({
      stamp_ms: stamp.done(),
      step_s,
      line: lines.done(),
      file: files.done(),
      columns: Object.fromEntries(quantities.map((quantity, q) => [quantity, columns[q]!.done()])),
    }),
  };
}

/**
 * Joins rows of a step below ten minutes to rows of ten minutes by their stamps, keeping the first value of each
 * so that an hour can be cut between any two file rows.
 *
 * in: quantities; step_s, of the file, a divisor of 600; phase_ms, of the stamps within their step; sums, whether each is summed (rain) or averaged
 * out: the keeper
 */
export function stepJoiner(
  quantities: readonly QuantityName[],
  step_s: number,
  phase_ms: number,
  sums: readonly boolean[],
): RowKeeper {
  const perRow = JOINED_S / step_s;
  const stamp = numbers();
  const lines = lineNumbers();
  const files = fileNumbers();
  const sum = quantities.map(numbers);
  const seen = quantities.map(counts);
  const edge = quantities.map(numbers);
  let last = Number.NEGATIVE_INFINITY;
  let at = -1;
  return {
    add: (stamp_ms, values, line, file) => {
      const cell = Math.floor((stamp_ms - phase_ms) / JOINED_MS);
      if (cell !== last) {
        last = cell;
        at++;
        stamp.push(cell * JOINED_MS + phase_ms + ((perRow - 1) / 2) * step_s * 1000);
        lines.push(line);
        files.push(file);
        for (let q = 0; q < quantities.length; q++) {
          sum[q]!.push(0);
          seen[q]!.push(0);
          edge[q]!.push(Number.NaN);
        }
      }
      const isEdge = stamp_ms - phase_ms - cell * JOINED_MS < step_s * 500;
      for (let q = 0; q < quantities.length; q++) {
        const value = values[q]!;
        if (isEdge) edge[q]!.set(at, value);
        if (Number.isNaN(value)) continue;
        sum[q]!.set(at, sum[q]!.get(at) + value);
        seen[q]!.set(at, seen[q]!.get(at) + 1);
      }
    },
    finish: () => {
      const columns: NativeSeries['columns'] = {};
      const shares: NativeSeries['columns'] = {};
      const edges: NativeSeries['columns'] = {};
      quantities.forEach((quantity, q) => {
        const values = sum[q]!.done();
        const seenRows = seen[q]!.done();
        const share = new Float64Array(seenRows.length);
        for (let i = 0; i < values.length; i++) {
          const count = seenRows[i]!;
          const mean = count === 0 ? Number.NaN : values[i]! / count;
          values[i] = sums[q] ? mean * perRow : mean;
          share[i] = count / perRow;
        }
        columns[quantity] = values;
        shares[quantity] = share;
        edges[quantity] = edge[q]!.done();
      });
      return {
        stamp_ms: stamp.done(),
        step_s: JOINED_S,
        line: lines.done(),
        file: files.done(),
        columns,
        seen: shares,
        edges,
      };
    },
  };
}

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
