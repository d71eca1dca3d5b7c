import type { QuantityName } from '../recognise/Recognition.ts';
import type { NativeSeries } from './NativeSeries.ts';

/** Rows are joined to this width. */
export const JOINED_S = 600;
const JOINED_MS = JOINED_S * 1000;

/** Takes rows in the order of time, gives columns. */
export interface RowKeeper {
  add: (stamp_ms: number, values: Float64Array, line: number, file: number) => void;
  finish: () => Pick<NativeSeries, 'stamp_ms' | 'step_s' | 'columns' | 'line' | 'file' | 'seen' | 'edges'>;
}

/** A column that grows; doubles its room. */
function growing(): {
  push: (value: number) => void;
  set: (i: number, value: number) => void;
  get: (i: number) => number;
  done: () => Float64Array;
} {
  let room = new Float64Array(1024);
  let count = 0;
  return {
    push: (value) => {
      if (count === room.length) {
        const more = new Float64Array(room.length * 2);
        more.set(room);
        room = more;
      }
      room[count++] = value;
    },
    set: (i, value) => {
      room[i] = value;
    },
    get: (i) => room[i]!,
    done: () => room.slice(0, count),
  };
}

/**
 * Keeps every row as it comes.
 *
 * in: quantities, one for each value of a row; step_s, seconds a row stands for
 * out: the keeper
 */
export function rowKeeper(quantities: readonly QuantityName[], step_s: number): RowKeeper {
  const stamp = growing();
  const lines = growing();
  const files = growing();
  const columns = quantities.map(growing);
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
      line: Uint32Array.from(lines.done()),
      file: Uint8Array.from(files.done()),
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
  const stamp = growing();
  const lines = growing();
  const files = growing();
  const sum = quantities.map(growing);
  const seen = quantities.map(growing);
  const edge = quantities.map(growing);
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
        const counts = seen[q]!.done();
        columns[quantity] = sum[q]!.done().map((value, i) =>
          counts[i] === 0 ? Number.NaN : sums[q] ? (value / counts[i]!) * perRow : value / counts[i]!,
        );
        shares[quantity] = counts.map((count) => count / perRow);
        edges[quantity] = edge[q]!.done();
      });
      return {
        stamp_ms: stamp.done(),
        step_s: JOINED_S,
        line: Uint32Array.from(lines.done()),
        file: Uint8Array.from(files.done()),
        columns,
        seen: shares,
        edges,
      };
    },
  };
}
