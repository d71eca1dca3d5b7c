import type { Problem } from '../../common/InputProblem.ts';
import type { ProblemList } from '../../common/problemList.ts';
import { parseDecimal, quotedCell } from '../../tables/parseNumber.ts';
import { UNITS, type Unit } from '../../tables/units.ts';
import type { ColumnChoice, Layout, QuantityName } from '../recognise/DetectedFormat.ts';
import { MISSING_WORDS } from '../recognise/words.ts';

/** Turns the cells of a row into canonical values; one object per file, nothing is allocated per row. */
export interface RowValues {
  /** Values of the last row, in the order of the columns. */
  values: Float64Array;
  /** How many of them are numbers. */
  read: (cells: readonly string[], first: number, line: number, span_s: number) => number;
  missing: Partial<Record<QuantityName, Record<string, number>>>;
  /** Cells of lesser quantities that are no numbers; readings of -1 taken as a trace. */
  unreadable: Partial<Record<QuantityName, number>>;
  traces: Partial<Record<QuantityName, number>>;
}

/** Quantities whose every cell must be read; of the others an odd word is a missing value. */
const ESSENTIAL: ReadonlySet<QuantityName> = new Set(['ghi', 'dni', 'bhi', 'dhi', 'air_temperature']);

/**
 * A reader of the values of rows.
 *
 * in: file, name for messages; choices; layout, for its decimal mark; step_s, 0 where rows come at
 * irregular times; problems
 * out: the reader
 */
export function rowValues(
  file: string,
  choices: readonly ColumnChoice[],
  { decimal, thousands }: Pick<Layout, 'decimal' | 'thousands'>,
  step_s: number,
  problems: ProblemList,
): RowValues {
  const comma = decimal === ',';
  const count = choices.length;
  const sums = choices.map(({ running }) => (running ? runningSum(step_s) : undefined));
  const values = new Float64Array(count);
  const units = choices.map(({ unit }): Unit => UNITS[unit]);
  // value = (number - subtract) * multiply / divide, the seconds of the step in the divisor
  const perStep = choices.map(({ per_s }, q) => units[q]!.over === 'sum' && per_s === undefined);
  const multiply = Float64Array.from(choices, (_, q) =>
    units[q]!.over === 'rate'
      ? (units[q]!.multiply * (step_s === 0 ? 3600 : step_s)) / 3600
      : units[q]!.multiply,
  );
  const divide = Float64Array.from(choices, ({ per_s }, q) =>
    units[q]!.over === 'sum' ? units[q]!.divide * (per_s ?? (step_s === 0 ? 1 : step_s)) : units[q]!.divide,
  );
  const subtract = Float64Array.from(choices, (_, q) => units[q]!.subtract);
  const missing: RowValues['missing'] = {};
  const unreadable: RowValues['unreadable'] = {};
  const traces: RowValues['traces'] = {};
  const lacks = (quantity: QuantityName, code: string): number => {
    missing[quantity] ??= {};
    const counts = missing[quantity];
    counts[code] = (counts[code] ?? 0) + 1;
    return Number.NaN;
  };
  const odd = (q: number, text: string, line: number): number => {
    const { quantity, heading, column, unit } = choices[q]!;
    if (MISSING_WORDS.has(text.toLowerCase())) return lacks(quantity, text === '' ? 'empty' : text);
    if (quantity === 'rain' && /^(t|tr|trace|sp|spur|spår)$/i.test(text)) return 0;
    if (!ESSENTIAL.has(quantity)) {
      unreadable[quantity] = (unreadable[quantity] ?? 0) + 1;
      return Number.NaN;
    }
    problems.add(`not a number ${quantity}`, (): Problem => {
      const other = /^[+-]?\d+[.,]\d+$/.test(text);
      return {
        code: 'WEATHER_VALUE_NOT_NUMBER',
        file,
        line,
        column: column + 1,
        ...(heading === '' ? {} : { field: heading }),
        got: quotedCell(text),
        expected: `a number in ${unit}, its decimals after a ${comma ? 'comma' : 'point'}`,
        fix: other
          ? 'one file, one decimal mark: write all decimals with a point.'
          : 'correct the cell, or empty it if the value is missing.',
      };
    });
    return Number.NaN;
  };
  return {
    values,
    missing,
    unreadable,
    traces,
    read: (cells, first, line, span_s) => {
      let good = 0;
      for (let q = 0; q < count; q++) {
        const text = cells[first + q]!;
        const number = text === '' ? Number.NaN : parseDecimal(text, comma, thousands);
        if (Number.isNaN(number)) {
          sums[q]?.(Number.NaN, span_s);
          values[q] = odd(q, text, line);
          if (!Number.isNaN(values[q]!)) good++;
          continue;
        }
        const { quantity, codes } = choices[q]!;
        const added = sums[q]?.(number, span_s) ?? number;
        let value = ((added - subtract[q]!) * multiply[q]!) / divide[q]!;
        if (step_s === 0 && perStep[q]) value /= span_s;
        good++;
        if (number === -1 && (quantity === 'rain' || quantity === 'snow_depth')) {
          traces[quantity] = (traces[quantity] ?? 0) + 1;
          value = 0;
        } else if (missingCode(number, value, quantity) || (codes.length > 0 && codes.includes(number))) {
          value = lacks(quantity, String(number));
        }
        values[q] = value;
      }
      return good;
    },
  };
}

/**
 * What was added since the row before to a sum that starts anew once a day; NaN behind a missing row, but for a sum
 * of nothing, to which nothing was added.
 */
function runningSum(step_s: number): (sum: number, span_s: number) => number {
  const longest_s = step_s === 0 ? 3 * 3600 : 1.5 * step_s;
  let before = Number.NaN;
  return (written, span_s) => {
    // A sum below zero is a code that says 'missing'.
    const sum = written < 0 ? Number.NaN : written;
    const follows = span_s <= longest_s && !Number.isNaN(before);
    const added = sum === 0 ? 0 : !follows ? Number.NaN : sum < before ? sum : sum - before;
    before = sum;
    return added;
  };
}

/** What a quantity is on any ordinary day, canonical units; a code of nines outside it says 'missing'. source: WMOExtremes, narrowed */
const ORDINARY: Readonly<Record<QuantityName, readonly [least: number, most: number]>> = {
  ghi: [-25, 1750],
  dni: [-25, 1500],
  bhi: [-25, 1500],
  dhi: [-25, 1200],
  air_temperature: [-85, 58],
  snow_depth: [-0.02, 9],
  rain: [-0.0002, 0.35],
  wind: [-0.5, 65],
};

const KNOWN = new Set([
  -32768, 32767, -32767, 65535, -6999, -7999, -8999, 6999, 7999, -6666, -5555, -111, -1111,
]);

/**
 * Whether a number says 'missing': it is written as codes are (all nines, eights or sevens; bounds of the
 * machine's numbers; a million and more) and no ordinary value of its quantity.
 *
 * in: value, as it stands in the file; canonical, the same in the canonical unit; quantity
 * out: true for a code
 */
export function missingCode(value: number, canonical: number, quantity: QuantityName): boolean {
  const [least, most] = ORDINARY[quantity];
  if (canonical >= least && canonical <= most) return false;
  return hasCodeShape(value);
}

/** A number written as codes are; whether it is one depends on what it would mean. */
export function hasCodeShape(value: number): boolean {
  const size = Math.abs(value);
  if (size >= 1e6) return true;
  return KNOWN.has(value) || /^(9{2,}(\.9+)?|9\.9+|7{3,}(\.7+)?|8{3,}(\.8+)?|9{3,}\d)$/.test(String(size));
}
