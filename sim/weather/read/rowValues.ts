import type { Problem } from '../../common/InputProblem.ts';
import { noNumber } from '../../tables/hourlyTable.ts';
import { missingTest, parseDecimal, quotedCell } from '../../tables/parseNumber.ts';
import { UNITS, type Unit } from '../../tables/units.ts';
import { saysMissing } from '../recognise/classifyCell.ts';
import type { ColumnChoice, Layout, QuantityName } from '../recognise/DetectedFormat.ts';
import type { Pass } from './Pass.ts';

/** Quantities whose every cell must be read; of the others an odd word is a missing value. */
const ESSENTIAL: ReadonlySet<QuantityName> = new Set(['ghi', 'dni', 'bhi', 'dhi', 'air_temperature']);

/** Cells with a word that says rain fell, too little to measure. */
const TRACE = /^(t|tr|trace|sp|spur|spår)$/i;

/** A column as it is read: value = (number - subtract) * multiply / divide, the seconds of the step in the divisor. */
interface ColumnReading extends Omit<ColumnChoice, 'running'> {
  subtract: number;
  multiply: number;
  divide: number;
  /** Rows come at irregular times: what is summed over a step is divided by each row's own. */
  perStep: boolean;
  running: ((sum: number, span_s: number) => number) | undefined;
}

/**
 * A reader of the cells of rows, in canonical units; nothing is allocated per row.
 *
 * in: pass, what was recognised and said; file, name for messages; layout; then the cells of a row, those of the columns
 *   from `first` on, its line, and span_s, seconds since the row before
 * out: the values in the order of the columns, the same array for every row
 */
export function rowValues(pass: Pass, file: string, layout: Layout) {
  const { columns, stamp } = pass.recognition;
  const readings = columns.map((choice) => columnReading(choice, stamp.step_s));
  const isSaid = missingTest(pass.said.missing ?? []);
  const values = new Float64Array(columns.length);
  const comma = layout.decimal === ',';
  return (cells: readonly string[], first: number, line: number, span_s: number): Float64Array => {
    for (let q = 0; q < values.length; q++) {
      const column = readings[q]!;
      const text = cells[first + q]!;
      const number = text === '' ? Number.NaN : parseDecimal(text, comma, layout.thousands);
      const added = column.running === undefined ? number : column.running(number, span_s);
      const isMissing =
        isSaid(text, number) || (!pass.said.strict && Number.isNaN(number) && saysMissing(text));
      values[q] = isMissing
        ? pass.missingCell(column.quantity, text === '' ? 'empty' : text)
        : Number.isNaN(number)
          ? noNumberIn(pass, { file, line }, layout, column, text)
          : canonical(pass, column, number, added, span_s);
    }
    return values;
  };
}

function canonical(pass: Pass, column: ColumnReading, number: number, added: number, span_s: number): number {
  const { quantity, codes } = column;
  const scaled = ((added - column.subtract) * column.multiply) / column.divide;
  const value = column.perStep ? scaled / span_s : scaled;
  if (pass.said.strict) return value;
  if (number === -1 && (quantity === 'rain' || quantity === 'snow_depth')) {
    pass.note(`readings of -1 of ${quantity}, taken as a trace of nothing (0)`);
    return 0;
  }
  const isMissing = missingCode(number, value, quantity) || (codes.length > 0 && codes.includes(number));
  return isMissing ? pass.missingCell(quantity, String(number)) : value;
}

/** The value of a cell that is no number, nor says 'missing'; NaN where it is a problem, which is reported. */
function noNumberIn(
  pass: Pass,
  row: { file: string; line: number },
  { decimal }: Layout,
  { quantity, heading, column, unit }: ColumnReading,
  text: string,
): number {
  const { strict } = pass.said;
  if (!strict && quantity === 'rain' && TRACE.test(text)) return 0;
  if (!strict && !ESSENTIAL.has(quantity)) {
    pass.note(`cells of ${quantity} that are no numbers, taken as missing`);
    return Number.NaN;
  }
  pass.problems.add(`not a number ${quantity}`, (): Problem => {
    const place = { ...row, column: column + 1, ...(heading === '' ? {} : { field: heading }) };
    if (strict) return { ...place, ...noNumber(text, unit, 'weather.missing') };
    return {
      ...place,
      code: 'WEATHER_VALUE_NOT_NUMBER',
      got: quotedCell(text),
      expected: `a number in ${unit}, its decimals after a ${decimal === ',' ? 'comma' : 'point'}`,
      fix: /^[+-]?\d+[.,]\d+$/.test(text)
        ? 'one file, one decimal mark: write all decimals with a point.'
        : 'correct the cell, or empty it if the value is missing.',
    };
  });
  return Number.NaN;
}

function columnReading(choice: ColumnChoice, step_s: number): ColumnReading {
  const { over, subtract, multiply, divide }: Unit = UNITS[choice.unit];
  const { per_s } = choice;
  const isIrregular = step_s === 0;
  return {
    ...choice,
    subtract,
    multiply: over === 'rate' && !isIrregular ? (multiply * step_s) / 3600 : multiply,
    divide: over === 'sum' ? divide * (per_s ?? (isIrregular ? 1 : step_s)) : divide,
    perStep: isIrregular && over === 'sum' && per_s === undefined,
    running: choice.running ? runningSum(step_s) : undefined,
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
function missingCode(value: number, canonical: number, quantity: QuantityName): boolean {
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
