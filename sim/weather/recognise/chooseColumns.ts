import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import { toCanonical, UNITS, type UnitName } from '../../tables/units.ts';
import { hasCodeShape } from '../read/rowValues.ts';
import { chooseUnit, dailyLight, type Seen, type UnitChoice, unitTyped } from './chooseUnit.ts';
import { addedByRow, codesWithin, columnValues, inferColumnsFromValues } from './columnNumbers.ts';
import {
  type ColumnChoice,
  type Doubt,
  isLight,
  type Layout,
  LIGHTS,
  type QuantityName,
} from './DetectedFormat.ts';
import { FLAG_WORDS, QUANTITY_WORDS } from './quantityWords.ts';
import { type Candidate, normaliseHeading, unitTexts, wordCandidates } from './words.ts';

/** What the columns are chosen from. */
export interface ColumnContext {
  file: string;
  layout: Layout;
  rows: readonly string[][];
  wall_ms: Float64Array;
  step_s: number;
  /** What the clock is ahead of UTC, as far as claimed. */
  offset_ms: number;
  stampColumns: ReadonlySet<number>;
  latitude_deg?: number | undefined;
  longitude_deg?: number | undefined;
  /** What the user says; always wins. */
  stated: Partial<Record<QuantityName, string>>;
  units: Partial<Record<QuantityName, UnitName>>;
}

const QUANTITIES = Object.keys(QUANTITY_WORDS) as QuantityName[];
/** Candidates whose words are this near are settled by their numbers or not at all. */
const NEAR_STRENGTH = 15;

/**
 * Which column holds which quantity in which unit, by its words, else by its numbers, each with its reason.
 *
 * in: context
 * out: choices and doubts
 * throws: WEATHER_COLUMN_MISSING where there is no light; WEATHER_AMBIGUOUS where two columns could be the same
 * light and disagree, or where the unit cannot be settled
 */
export function chooseColumns(context: ColumnContext): { columns: ColumnChoice[]; doubts: Doubt[] } {
  const { layout, rows, stampColumns } = context;
  const doubts: Doubt[] = [];
  const columns: ColumnChoice[] = [];
  const width = Math.max(layout.width, layout.headings.length);
  const running = new Set<number>();
  const values = Array.from({ length: width }, (_, c) => {
    if (stampColumns.has(c)) return undefined;
    const stand = columnValues(rows, c, layout).map((value) => (hasCodeShape(value) ? Number.NaN : value));
    const added = addedByRow(stand, context.wall_ms, context.step_s);
    if (added !== undefined) running.add(c);
    const numbers = added ?? stand;
    return numbers.some((value) => !Number.isNaN(value)) ? numbers : undefined;
  });
  const seenOf = (column: number): Seen => ({
    values: values[column]!,
    wall_ms: context.wall_ms,
    step_s: context.step_s,
    latitude_deg: context.latitude_deg,
  });
  const taken = new Set<number>();
  const take = (
    quantity: QuantityName,
    column: number,
    reason: string,
    byNumbers: boolean,
    unit: UnitChoice,
  ) => {
    taken.add(column);
    columns.push({
      quantity,
      column,
      heading: layout.headings[column] ?? '',
      unit: unit.unit,
      ...(running.has(column)
        ? { running: true as const }
        : unit.per_s === undefined
          ? {}
          : { per_s: unit.per_s }),
      reason: running.has(column) ? `${reason}; sums that run through the day, taken apart` : reason,
      unitReason: unit.reason,
      over: UNITS[unit.unit].over,
      byNumbers: byNumbers || unit.byNumbers,
      codes: codesWithin(columnValues(rows, column, layout), context.wall_ms, quantity, unit.unit),
    });
  };
  const candidates = new Map(
    QUANTITIES.map((quantity) => [quantity, wordCandidates(quantity, layout, values)] as const),
  );
  /** Direct on the horizontal and diffuse, row by row, where there is no global: its unit is theirs. */
  const sumOfParts = (column: number): Seen | undefined => {
    const direct = columns.find(({ quantity }) => quantity === 'bhi')?.column ?? column;
    const diffuse = direct === column ? candidates.get('dhi')![0]?.column : column;
    if (diffuse === undefined || diffuse === direct) return undefined;
    return { ...seenOf(direct), values: values[direct]!.map((value, i) => value + values[diffuse]![i]!) };
  };
  const unitAt = (quantity: QuantityName, column: number): UnitChoice => {
    const said = context.units[quantity];
    if (said !== undefined) return { unit: said, reason: 'stated by the user', byNumbers: false, others: [] };
    const unit = chooseUnit(unitTexts(layout, column), quantity, seenOf(column));
    if (!unit.byNumbers || !isLight(quantity) || quantity === 'ghi') return unit;
    const global = columns.find((choice) => choice.quantity === 'ghi');
    if (global === undefined) {
      const isPart = quantity === 'bhi' || columns.some((choice) => choice.quantity === 'bhi');
      const sum = isPart ? sumOfParts(column) : undefined;
      return sum === undefined ? unit : chooseUnit([], 'ghi', sum);
    }
    return {
      unit: global.unit,
      ...(global.per_s === undefined ? {} : { per_s: global.per_s }),
      reason: 'no unit is stated; as that of the global irradiance beside it',
      byNumbers: true,
      others: [],
    };
  };

  for (const quantity of QUANTITIES) {
    const said = context.stated[quantity];
    if (said === undefined) continue;
    const column = statedColumn(context, quantity, said, width);
    take(quantity, column, 'stated by the user', false, unitAt(quantity, column));
  }
  const wanted = (quantity: QuantityName): boolean => context.stated[quantity] === undefined;

  for (const quantity of QUANTITIES) {
    if (!wanted(quantity)) continue;
    const list = candidates
      .get(quantity)!
      .filter(({ column }) => !taken.has(column) && strongestHere(column, quantity, candidates));
    const best = list[0];
    if (best === undefined) continue;
    const unit = unitAt(quantity, best.column);
    const light = LIGHTS.find((name) => name === quantity);
    for (const other of list.slice(1)) {
      const near = best.strength - other.strength <= NEAR_STRENGTH;
      const otherUnit = unitAt(quantity, other.column);
      const alike = agree(values[best.column]!, unit, values[other.column]!, otherUnit, context.step_s);
      if (light !== undefined && near && !alike)
        throw twoLights(context, quantity, best.column, other.column);
      if (near || other.strength > 60) {
        doubts.push({
          about: quantity,
          taken: nameOf(layout, best.column),
          runnerUp: nameOf(layout, other.column),
          why: alike
            ? 'both hold the same values'
            : 'the words of the first say it more clearly, or it comes first',
        });
      }
    }
    if (
      quantity === 'dni' &&
      !/normal|dni|bni|dir ?nor/.test(
        normaliseHeading(
          `${best.reason} ${layout.headings[best.column] ?? ''} ${layout.legends[best.column] ?? ''}`,
        ),
      )
    ) {
      const horizontal = isHorizontalBeam(
        columns,
        values,
        best.column,
        unit,
        unitAt,
        candidates.get('dhi')![0],
        context.step_s,
      );
      if (horizontal) {
        doubts.push({
          about: 'dni',
          taken: 'none',
          runnerUp: nameOf(layout, best.column),
          why: 'global less diffuse is this column itself, so it is the beam on the horizontal',
        });
        continue;
      }
      if (
        wanted('bhi') &&
        columns.every((choice) => choice.quantity !== 'ghi') &&
        neverAboveFlat(seenOf(best.column), unit)
      ) {
        take(
          'bhi',
          best.column,
          `${best.reason}; on no day brighter than what falls on the horizontal`,
          false,
          unit,
        );
        continue;
      }
    }
    // What falls on the horizontal serves only where nobody states the global irradiance.
    if (
      quantity === 'bhi' &&
      columns.some((choice) => choice.quantity === 'ghi' || choice.quantity === 'bhi')
    )
      continue;
    take(quantity, best.column, best.reason, false, unit);
  }

  const lit = (): boolean =>
    columns.some(({ quantity }) => quantity === 'ghi') ||
    (columns.some(({ quantity }) => quantity === 'dni' || quantity === 'bhi') &&
      columns.some(({ quantity }) => quantity === 'dhi'));
  if (!lit()) {
    const open = values.map((list, c) =>
      taken.has(c) || (layout.headings[c] && excluded(layout, c)) ? undefined : list,
    );
    const judged = inferColumnsFromValues(
      open,
      { wall_ms: context.wall_ms, step_s: context.step_s, latitude_deg: context.latitude_deg },
      { latitude_deg: context.latitude_deg, longitude_deg: context.longitude_deg },
      context.offset_ms,
    );
    if (judged.undecided.length > 0 && wanted('ghi')) {
      throw twoLights(context, 'ghi', judged.undecided[0]!, judged.undecided[1]!);
    }
    for (const quantity of ['ghi', 'dni', 'dhi', 'air_temperature'] as const) {
      const found = judged[quantity];
      if (
        found === undefined ||
        taken.has(found.column) ||
        columns.some((choice) => choice.quantity === quantity)
      )
        continue;
      take(
        quantity,
        found.column,
        `by its numbers alone: ${found.reason}`,
        true,
        unitAt(quantity, found.column),
      );
      doubts.push({
        about: quantity,
        taken: nameOf(layout, found.column),
        runnerUp:
          quantity === 'air_temperature' && judged.air_temperature?.runnerUp !== undefined
            ? nameOf(layout, judged.air_temperature.runnerUp)
            : 'none',
        why: 'no heading says so; judged by its numbers',
      });
    }
  }
  if (!lit()) throw noLight(context);
  for (const choice of columns) {
    if (choice.quantity === 'ghi' || choice.quantity === 'bhi') refuseUnit(context, choice, unitAt);
  }
  return { columns, doubts };
}

/** No other quantity has a stronger claim on the column. */
function strongestHere(
  column: number,
  quantity: QuantityName,
  candidates: ReadonlyMap<QuantityName, readonly Candidate[]>,
): boolean {
  const claim = (name: QuantityName): number =>
    candidates.get(name)!.find((candidate) => candidate.column === column)?.strength ?? 0;
  return QUANTITIES.every((other) => other === quantity || claim(other) <= claim(quantity));
}

function agree(
  a: Float64Array,
  unitA: UnitChoice,
  b: Float64Array,
  unitB: UnitChoice,
  step_s: number,
): boolean {
  const step = step_s > 0 ? step_s : 3600;
  let off = 0;
  let total = 0;
  for (let i = 0; i < a.length; i++) {
    const x = toCanonical(a[i]!, unitA.unit, unitA.per_s ?? step);
    const y = toCanonical(b[i]!, unitB.unit, unitB.per_s ?? step);
    if (Number.isNaN(x + y)) continue;
    off += Math.abs(x - y);
    total += Math.abs(x);
  }
  return off <= 0.02 * total;
}

/**
 * Light facing the sun outshines what falls on the horizontal outside the air where the sun is low; light on the
 * horizontal never does. Only where some noons are low: the sun within 30 degrees of the horizon.
 */
function neverAboveFlat(seen: Seen, unit: UnitChoice): boolean {
  const light = dailyLight(seen.values, seen.wall_ms, seen.latitude_deg);
  const one = toCanonical(1, unit.unit, unit.per_s ?? (seen.step_s > 0 ? seen.step_s : 3600));
  const low = light.most.flatMap((most, d) => {
    const noon = light.noon_W_m2[d]!;
    return noon > 100 && noon < 680 ? [(most * one) / noon] : [];
  });
  return seen.latitude_deg !== undefined && low.length >= 20 && Math.max(...low) < 0.9;
}

/** Global less diffuse is the column itself. */
function isHorizontalBeam(
  columns: readonly ColumnChoice[],
  values: readonly (Float64Array | undefined)[],
  beam: number,
  unit: UnitChoice,
  unitAt: (quantity: QuantityName, column: number) => UnitChoice,
  diffuse: Candidate | undefined,
  step_s: number,
): boolean {
  const global = columns.find(({ quantity }) => quantity === 'ghi');
  if (global === undefined || diffuse === undefined) return false;
  const step = step_s > 0 ? step_s : 3600;
  const ghi = values[global.column]!.map((value) => toCanonical(value, global.unit, global.per_s ?? step));
  const dhiUnit = unitAt('dhi', diffuse.column);
  const difference = ghi.map(
    (value, i) => value - toCanonical(values[diffuse.column]![i]!, dhiUnit.unit, dhiUnit.per_s ?? step),
  );
  const watts: UnitChoice = { unit: 'W/m2', reason: '', byNumbers: false, others: [] };
  return agree(difference, watts, values[beam]!, unit, step);
}

function excluded(layout: Layout, column: number): boolean {
  const words = normaliseHeading(`${layout.headings[column]} ${layout.legends[column] ?? ''}`);
  return FLAG_WORDS.test(words) || QUANTITY_WORDS.ghi.no.test(words);
}

function statedColumn(context: ColumnContext, quantity: QuantityName, name: string, width: number): number {
  const { layout } = context;
  const byName = layout.headings.findIndex((heading) => heading.toLowerCase() === name.trim().toLowerCase());
  if (byName >= 0) return byName;
  const number = /^(?:column )?(\d+)$/.exec(name.trim());
  if (number !== null && Number(number[1]) >= 1 && Number(number[1]) <= width) return Number(number[1]) - 1;
  throw new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: context.file,
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    field: name,
    got: columnsText(layout),
    expected: `a column "${name}" for ${quantity}`,
    fix: `--column ${quantity}=NAME, with one of these, or its number.`,
  });
}

/** How a message names a column. */
export function nameOf(layout: Layout, column: number): string {
  const heading = layout.headings[column];
  return heading ? `"${heading}"` : `column ${column + 1}`;
}

/** A column as it is typed; by number where its heading is not its own. */
function columnTyped({ headings }: Layout, quantity: QuantityName, column: number): string {
  const heading = headings[column] ?? '';
  const isOwn = heading !== '' && headings.filter((other) => other === heading).length === 1;
  const value = `${quantity}=${isOwn ? heading : column + 1}`;
  return `--column ${/[^\w=./-]/.test(value) ? `"${value}"` : value}`;
}

/** The columns there are, in words. */
export function columnsText(layout: Layout): string {
  if (layout.headings.length === 0) return `${layout.width} columns without headings`;
  const names = layout.headings.filter((heading) => heading !== '').map((heading) => `"${heading}"`);
  return `the columns ${names.slice(0, 20).join(', ')}${names.length > 20 ? ', ...' : ''}`;
}

/** Two columns that could be the same light and disagree. */
export function twoLights(
  context: ColumnContext,
  quantity: QuantityName,
  a: number,
  b: number,
): InputProblem {
  const { layout, file } = context;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    field: quantity,
    got: `${nameOf(layout, a)} and ${nameOf(layout, b)}, which could both be ${quantity} and disagree`,
    expected: `one column for ${quantity}`,
    ...fixOf(
      [a, b].map((column) => columnTyped(layout, quantity, column)),
      ` (in a scenario, weather.columns.${quantity}.column).`,
    ),
  });
}

/** No column of light. */
export function noLight(context: ColumnContext): InputProblem {
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: 'ghi',
    got: columnsText(context.layout),
    expected:
      'a column of global irradiance, or of both direct and diffuse, that is dark at night and as bright by day as daylight',
    fix: '--column ghi=NAME, with the heading or the number of the column (in a scenario, weather.columns.ghi.column).',
  });
}

/** Throws where the unit of global irradiance is one that the numbers do not settle. */
export function refuseUnit(
  context: ColumnContext,
  choice: ColumnChoice,
  unitAt: (quantity: QuantityName, column: number) => UnitChoice,
): void {
  if (choice.unitReason === 'stated by the user') return;
  const unit = unitAt(choice.quantity, choice.column);
  const place = {
    code: 'WEATHER_AMBIGUOUS',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: choice.heading || `column ${choice.column + 1}`,
  } as const;
  if (unit.others.length > 0) {
    throw new InputProblem({
      ...place,
      got: `no unit, and numbers that could be ${[unit.unit, ...unit.others].join(' or ')}`,
      expected: 'a stated unit, or a longer stretch in which clear days show',
      ...fixOf(
        [unit.unit, ...unit.others].map((name) => unitTyped(choice.quantity, name)),
        `${choice.quantity === 'ghi' ? ' (in a scenario, weather.columns.ghi.unit)' : ''}${context.latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
      ),
    });
  }
}
