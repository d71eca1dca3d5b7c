import type { UnitName } from '../../tables/units.ts';
import { toCanonical } from '../../tables/units.ts';
import { chooseUnit, type UnitChoice } from './chooseUnit.ts';
import { type Seen, summedOver_s } from './clearDays.ts';
import { type ColumnSample, codesWithin, columnNumbers, columnValues } from './columnNumbers.ts';
import { noNumbers, unitOpen } from './columnProblems.ts';
import {
  type ColumnChoice,
  columnName,
  columnTexts,
  type Doubt,
  isLight,
  type QuantityName,
} from './DetectedFormat.ts';
import { foreignUnit } from './foreignUnit.ts';
import { noIrradiance } from './leftAside.ts';
import { type Claim, wordClaims } from './wordClaims.ts';

/** What the columns are chosen from. */
export interface ColumnContext extends ColumnSample {
  file: string;
  /** What the user says; always wins. */
  stated: Partial<Record<QuantityName, string>>;
  units: Partial<Record<QuantityName, UnitName>>;
  /** Nothing but what is stated. */
  strict: boolean;
}

/** What has been chosen so far, and the numbers and words it is chosen from. */
export class ColumnChoices {
  readonly context: ColumnContext;
  readonly columns: ColumnChoice[] = [];
  readonly doubts: Doubt[] = [];
  /** Numbers of each column, undefined where it has none; running sums are taken apart. */
  readonly values: readonly (Float64Array | undefined)[];
  private readonly running: ReadonlySet<number>;
  /** What the words of columns speak for, the strongest first. */
  private readonly claims: readonly Claim[];

  constructor(context: ColumnContext) {
    this.context = context;
    const { values, running } = columnNumbers(context);
    this.values = values;
    this.running = running;
    this.claims = wordClaims(context.layout, values);
  }

  chosen(quantity: QuantityName): ColumnChoice | undefined {
    return this.columns.find((choice) => choice.quantity === quantity);
  }

  isTaken(column: number): boolean {
    return this.columns.some((choice) => choice.column === column);
  }

  /** Global irradiance is there, or both its parts are. */
  isLit(): boolean {
    const isBeam = this.chosen('dni') !== undefined || this.chosen('bhi') !== undefined;
    return this.chosen('ghi') !== undefined || (isBeam && this.chosen('dhi') !== undefined);
  }

  /** Columns not yet taken whose words speak for no other quantity more strongly. */
  open(quantity: QuantityName): Claim[] {
    const isStrongest = ({ column, strength }: Claim): boolean =>
      this.claims.every((other) => other.column !== column || other.strength <= strength);
    return this.claims.filter(
      (claim) => claim.quantity === quantity && !this.isTaken(claim.column) && isStrongest(claim),
    );
  }

  /** The column whose words speak most for diffuse light. */
  diffuse(): number | undefined {
    return this.claims.find(({ quantity }) => quantity === 'dhi')?.column;
  }

  seen(column: number): Seen {
    return { ...this.context, values: this.values[column]! };
  }

  unitOf(quantity: QuantityName, column: number): UnitChoice {
    const said = this.context.units[quantity];
    if (said !== undefined) return { unit: said, reason: 'stated by the user', byNumbers: false, others: [] };
    if (this.values[column] === undefined) throw noNumbers(this.context, quantity, column);
    const foreign = isLight(quantity) ? foreignUnit(this.context.layout, column) : undefined;
    if (foreign !== undefined) throw noIrradiance(this.context, quantity, column, foreign);
    const unit = chooseUnit(columnTexts(this.context.layout, column), quantity, this.seen(column));
    if (!unit.byNumbers || !isLight(quantity) || quantity === 'ghi') return unit;
    // The numbers of a part say less than those of the whole.
    const global = this.chosen('ghi');
    const reason = 'no unit is stated; as that of the global irradiance beside it';
    if (global !== undefined) return { ...unit, unit: global.unit, per_s: global.per_s, reason, others: [] };
    const whole = this.sumOfParts(quantity, column);
    return whole === undefined ? unit : chooseUnit([], 'ghi', whole);
  }

  /** Direct on the horizontal and diffuse, row by row, where there is no global: its unit is theirs. */
  private sumOfParts(quantity: QuantityName, column: number): Seen | undefined {
    const direct = quantity === 'bhi' ? column : this.chosen('bhi')?.column;
    const diffuse = direct === column ? this.diffuse() : column;
    if (direct === undefined || diffuse === undefined || diffuse === direct) return undefined;
    const seen = this.seen(direct);
    return { ...seen, values: seen.values.map((value, i) => value + this.values[diffuse]![i]!) };
  }

  /** Values of a column in the canonical unit. */
  canonical(column: number, { unit, per_s }: Pick<UnitChoice, 'unit' | 'per_s'>): Float64Array {
    const step_s = summedOver_s(per_s, this.context.step_s);
    return this.values[column]!.map((value) => toCanonical(value, unit, step_s));
  }

  /** The same in the unit that it has as that quantity. */
  canonicalAs(quantity: QuantityName, column: number): Float64Array {
    return this.canonical(column, this.unitOf(quantity, column));
  }

  take(quantity: QuantityName, column: number, reason: string, unit = this.unitOf(quantity, column)): void {
    const { layout, rows, wall_ms, strict } = this.context;
    if ((quantity === 'ghi' || quantity === 'bhi') && unit.others.length > 0)
      throw unitOpen(this.context, quantity, column, unit);
    const isRunning = !strict && this.running.has(column);
    this.columns.push({
      quantity,
      column,
      heading: layout.headings[column] ?? '',
      unit: unit.unit,
      ...(isRunning ? { running: true } : unit.per_s === undefined ? {} : { per_s: unit.per_s }),
      reason: isRunning ? `${reason}; a running sum, taken apart` : reason,
      unitReason: unit.reason,
      codes: strict ? [] : codesWithin(columnValues(rows, column, layout), wall_ms, quantity, unit.unit),
    });
  }

  doubt(about: QuantityName, taken: number | undefined, runnerUp: number | undefined, why: string): void {
    const name = (column: number | undefined): string =>
      column === undefined ? 'none' : columnName(this.context.layout, column);
    this.doubts.push({ about, taken: name(taken), runnerUp: name(runnerUp), why });
  }
}
