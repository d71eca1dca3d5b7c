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
  finish: () => Pick<NativeSeries, 'stamp_ms' | 'step_s' | 'columns' | 'line' | 'seen'>;
}

/**
 * The keeper of a record's rows: every row as it is where their step is ten minutes or more; else joined to rows of
 * ten minutes.
 *
 * in: format, what was recognised of the record; first_ms, stamp of its first row
 * out: the keeper
 */
export function rowKeeper({ stamp, columns }: DetectedFormat, first_ms: number): RowKeeper {
  const quantities = columns.map(({ quantity }) => quantity);
  const { step_s } = stamp;
  if (stamp.irregular) return loggerKeeper(quantities);
  const joins = step_s < JOINED_S && JOINED_S % step_s === 0 && !stamp.descending;
  if (!joins) return everyRow(quantities, step_s);
  // A cell begins with a step: a stamp lies as far into it as the first one, or marks its end.
  const phase_ms = (first_ms % (step_s * 1000)) + (stamp.label.label === 'end' ? step_s * 1000 : 0);
  return stepJoiner(quantities, step_s, phase_ms);
}

/** A column that grows; doubles its room. */
class Growing<T extends Float64Array | Uint32Array> {
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

  /** Adds to what was pushed last. */
  add(value: number): void {
    this.#room[this.#count - 1]! += value;
  }

  /** What was pushed, as a view of the room. */
  done(): T {
    return this.#room.subarray(0, this.#count) as T;
  }
}

const numbers = (): Growing<Float64Array> => new Growing((length) => new Float64Array(length));

/** Stamps and lines of rows: what all keepers keep alike. */
class Places {
  readonly #stamp = numbers();
  readonly #line = new Growing((length) => new Uint32Array(length));

  push(stamp_ms: number, line: number): void {
    this.#stamp.push(stamp_ms);
    this.#line.push(line);
  }

  done() {
    return { stamp_ms: this.#stamp.done(), line: this.#line.done() };
  }
}

/** One column a quantity, named. */
function named(quantities: readonly QuantityName[], column: (q: number) => Float64Array) {
  return Object.fromEntries(quantities.map((quantity, q) => [quantity, column(q)]));
}

function everyRow(quantities: readonly QuantityName[], step_s: number): RowKeeper {
  const places = new Places();
  const columns = quantities.map(numbers);
  return {
    add: (stamp_ms, values, line) => {
      places.push(stamp_ms, line);
      for (let q = 0; q < values.length; q++) columns[q]!.push(values[q]!);
    },
    finish: () => ({ ...places.done(), step_s, columns: named(quantities, (q) => columns[q]!.done()) }),
  };
}

/** Cells of ten minutes: of each quantity the sum of what fell in, weighted, and the weight that was seen. */
class TenMinutes {
  readonly #quantities: readonly QuantityName[];
  /** Weight of a full cell. */
  readonly #full: number;
  readonly #places = new Places();
  readonly #sums: Growing<Float64Array>[];
  readonly #seen: Growing<Float64Array>[];
  #last = Number.NEGATIVE_INFINITY;

  constructor(quantities: readonly QuantityName[], full: number) {
    this.#quantities = quantities;
    this.#full = full;
    this.#sums = quantities.map(numbers);
    this.#seen = quantities.map(numbers);
  }

  /** Goes on to a cell, by its number. */
  reach(index: number, stamp_ms: number, line: number): void {
    if (index === this.#last) return;
    this.#last = index;
    this.#places.push(stamp_ms, line);
    for (const sum of this.#sums) sum.push(0);
    for (const seen of this.#seen) seen.push(0);
  }

  add(q: number, weighted: number, weight: number): void {
    this.#sums[q]!.add(weighted);
    this.#seen[q]!.add(weight);
  }

  /** Means of what was seen, of rain the sum it makes of a full cell; and the share that was seen. */
  finish() {
    const columns = named(this.#quantities, (q) => {
      const seen = this.#seen[q]!.done();
      const full = this.#quantities[q] === 'rain' ? this.#full : 1;
      return this.#sums[q]!.done().map((sum, i) => (seen[i] === 0 ? Number.NaN : (sum / seen[i]!) * full));
    });
    const seen = named(this.#quantities, (q) => this.#seen[q]!.done().map((weight) => weight / this.#full));
    return { ...this.#places.done(), step_s: JOINED_S, columns, seen };
  }
}

/** Joins rows by their stamps to cells that begin `phase_ms` after full ten minutes. The step is a divisor of those. */
function stepJoiner(quantities: readonly QuantityName[], step_s: number, phase_ms: number): RowKeeper {
  const cells = new TenMinutes(quantities, JOINED_S / step_s);
  const middle_ms = phase_ms + (JOINED_MS - step_s * 1000) / 2;
  return {
    add: (stamp_ms, values, line) => {
      const index = Math.floor((stamp_ms - phase_ms) / JOINED_MS);
      cells.reach(index, index * JOINED_MS + middle_ms, line);
      for (let q = 0; q < values.length; q++) if (!Number.isNaN(values[q]!)) cells.add(q, values[q]!, 1);
    },
    finish: () => cells.finish(),
  };
}

/**
 * Rows at irregular times, taken as samples joined by straight lines (rain: as sums since the row before):
 * time-weighted means over cells, whose stamp is their middle.
 */
function loggerKeeper(quantities: readonly QuantityName[]): RowKeeper {
  const cells = new TenMinutes(quantities, JOINED_MS);
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
          cells.reach(index, (index + 0.5) * JOINED_MS, line);
          addStretch(from, to, stamp_ms, values);
          from = to;
        }
      }
      before_ms = stamp_ms;
      before.set(values);
    },
    finish: () => cells.finish(),
  };
}
