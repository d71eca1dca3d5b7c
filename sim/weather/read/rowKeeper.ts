import { bisectLeft } from 'd3-array';
import { HOUR_MS } from '../../common/time.ts';
import type { DetectedFormat, QuantityName } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';

/** Rows of a shorter step are joined to this width. */
const JOINED_S = 600;
const JOINED_MS = JOINED_S * 1000;
/** Between rows at irregular times a longer silence is a gap. */
const LONGEST_SILENCE_MS = HOUR_MS / 2;

/** Takes rows in the order of time, gives columns. */
export interface RowKeeper {
  add: (stamp_ms: number, values: Float64Array, line: number) => void;
  /** Whether it has this very row already; rows that were joined it cannot tell apart. */
  has: (stamp_ms: number, values: Float64Array) => boolean;
  finish: () => Pick<NativeSeries, 'stamp_ms' | 'step_s' | 'columns' | 'line' | 'seen'>;
}

/**
 * The keeper of a record's rows: every row as it is where their step is ten minutes or more; else joined to rows of
 * ten minutes, as rows at irregular times are.
 *
 * in: format, what was recognised of the record; first_ms, stamp of its first row
 * out: the keeper
 */
export function rowKeeper({ stamp, columns }: DetectedFormat, first_ms: number): RowKeeper {
  const quantities = columns.map(({ quantity }) => quantity);
  const { step_s } = stamp;
  if (stamp.irregular) return loggerKeeper(quantities);
  const joins = step_s < JOINED_S && JOINED_S % step_s === 0 && !stamp.descending;
  const rows = new KeptRows(quantities, joins ? JOINED_S : step_s, joins ? JOINED_S / step_s : 1);
  // A cell begins with a step: a stamp lies as far into it as the first one, or marks its end.
  const phase_ms = (first_ms % (step_s * 1000)) + (stamp.label.label === 'end' ? step_s * 1000 : 0);
  const middle_ms = phase_ms + (JOINED_MS - step_s * 1000) / 2;
  const stampOf = (ms: number): number =>
    joins ? Math.floor((ms - phase_ms) / JOINED_MS) * JOINED_MS + middle_ms : ms;
  return {
    add: (stamp_ms, values, line) => {
      const at_ms = stampOf(stamp_ms);
      // Of rows as they stand two may bear one stamp, where clocks are put back.
      if (!joins || at_ms !== rows.last_ms) rows.begin(at_ms, line);
      for (let q = 0; q < values.length; q++) if (!Number.isNaN(values[q]!)) rows.add(q, values[q]!, 1);
    },
    has: (stamp_ms, values) => !joins && rows.has(stamp_ms, values),
    finish: () => rows.finish(),
  };
}

/** Rows that are kept: of each quantity the sum of what fell in, weighted, and the weight that was seen. */
class KeptRows {
  readonly #quantities: readonly QuantityName[];
  readonly #step_s: number;
  /** Weight of a full row; 1 where each is one of the file. */
  readonly #full: number;
  readonly #stamp_ms: number[] = [];
  readonly #line: number[] = [];
  readonly #sums: number[][];
  readonly #seen: number[][];

  constructor(quantities: readonly QuantityName[], step_s: number, full: number) {
    this.#quantities = quantities;
    this.#step_s = step_s;
    this.#full = full;
    this.#sums = quantities.map(() => []);
    this.#seen = quantities.map(() => []);
  }

  get last_ms(): number | undefined {
    return this.#stamp_ms.at(-1);
  }

  /** Of rows in the order of time: whether one of them is this. */
  has(stamp_ms: number, values: Float64Array): boolean {
    const row = bisectLeft(this.#stamp_ms, stamp_ms);
    if (this.#stamp_ms[row] !== stamp_ms) return false;
    return values.every((value, q) =>
      Number.isNaN(value)
        ? this.#seen[q]![row] === 0
        : this.#seen[q]![row] === 1 && this.#sums[q]![row] === value,
    );
  }

  begin(stamp_ms: number, line: number): void {
    this.#stamp_ms.push(stamp_ms);
    this.#line.push(line);
    for (const column of [...this.#sums, ...this.#seen]) column.push(0);
  }

  add(q: number, weighted: number, weight: number): void {
    const row = this.#stamp_ms.length - 1;
    this.#sums[q]![row]! += weighted;
    this.#seen[q]![row]! += weight;
  }

  /** Means of what was seen, of rain the sum it makes of a full row; of joined rows the share that was seen. */
  finish(): ReturnType<RowKeeper['finish']> {
    const named = (column: (q: number) => Float64Array) =>
      Object.fromEntries(this.#quantities.map((quantity, q) => [quantity, column(q)]));
    const columns = named((q) => {
      const seen = this.#seen[q]!;
      const full = this.#quantities[q] === 'rain' ? this.#full : 1;
      return Float64Array.from(this.#sums[q]!, (sum, i) =>
        seen[i] === 0 ? Number.NaN : (sum / seen[i]!) * full,
      );
    });
    const seen = named((q) => Float64Array.from(this.#seen[q]!, (weight) => weight / this.#full));
    return {
      stamp_ms: Float64Array.from(this.#stamp_ms),
      line: Uint32Array.from(this.#line),
      step_s: this.#step_s,
      columns,
      ...(this.#full === 1 ? {} : { seen }),
    };
  }
}

/**
 * Rows at irregular times, taken as samples joined by straight lines (rain: as sums since the row before):
 * time-weighted means over cells, whose stamp is their middle.
 */
function loggerKeeper(quantities: readonly QuantityName[]): RowKeeper {
  const cells = new KeptRows(quantities, JOINED_S, JOINED_MS);
  const before = new Float64Array(quantities.length);
  let before_ms = Number.NaN;
  /** What a stretch between the row before and this one adds to its cell. */
  const addStretch = (from: number, to: number, stamp_ms: number, values: Float64Array): void => {
    const span = stamp_ms - before_ms;
    const a = (from - before_ms) / span;
    const b = (to - before_ms) / span;
    for (let q = 0; q < values.length; q++) {
      const begin = before[q]!;
      const end = values[q]!;
      const mean = begin + (end - begin) * ((a + b) / 2);
      const weighted = quantities[q] === 'rain' ? end * (b - a) : mean * (to - from);
      if (!Number.isNaN(weighted)) cells.add(q, weighted, to - from);
    }
  };
  return {
    add: (stamp_ms, values, line) => {
      if (stamp_ms - before_ms <= LONGEST_SILENCE_MS) {
        for (let from = before_ms; from < stamp_ms; ) {
          const index = Math.floor(from / JOINED_MS);
          const to = Math.min(stamp_ms, (index + 1) * JOINED_MS);
          const middle_ms = (index + 0.5) * JOINED_MS;
          if (middle_ms !== cells.last_ms) cells.begin(middle_ms, line);
          addStretch(from, to, stamp_ms, values);
          from = to;
        }
      }
      before_ms = stamp_ms;
      before.set(values);
    },
    has: () => false,
    finish: () => cells.finish(),
  };
}
