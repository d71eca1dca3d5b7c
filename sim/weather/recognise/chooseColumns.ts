import { InputProblem } from '../../common/InputProblem.ts';
import { hasCodeShape } from '../read/missingCode.ts';
import { toCanonical } from '../toCanonical.ts';
import { UNITS, type UnitName } from '../units.ts';
import { chooseUnit, type Seen, type UnitChoice } from './chooseUnit.ts';
import { codesWithin } from './codesWithin.ts';
import { columnValues } from './columnValues.ts';
import { judgeByNumbers } from './judgeByNumbers.ts';
import { plainWords } from './plainWords.ts';
import { FLAG_WORDS, QUANTITY_WORDS } from './quantityWords.ts';
import type { ColumnChoice, Doubt, Layout, QuantityName } from './Recognition.ts';

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
  stated: Partial<Record<QuantityName, { column: string; unit?: UnitName | undefined }>>;
}

interface Candidate {
  column: number;
  strength: number;
  reason: string;
}

const QUANTITIES = Object.keys(QUANTITY_WORDS) as QuantityName[];
const LIGHTS = ['ghi', 'dni', 'dhi'] as const;
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
  const values = Array.from({ length: width }, (_, c) => {
    if (stampColumns.has(c)) return undefined;
    const numbers = columnValues(rows, c, layout.decimal).map((value) =>
      hasCodeShape(value) ? Number.NaN : value,
    );
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
      ...(unit.per_s === undefined ? {} : { per_s: unit.per_s }),
      reason,
      unitReason: unit.reason,
      over: UNITS[unit.unit].over,
      byNumbers: byNumbers || unit.byNumbers,
      codes: codesWithin(columnValues(rows, column, layout.decimal), context.wall_ms, quantity, unit.unit),
    });
  };
  const unitAt = (quantity: QuantityName, column: number): UnitChoice => {
    const unit = chooseUnit(unitTexts(layout, column), quantity, seenOf(column));
    const global = columns.find((choice) => choice.quantity === 'ghi');
    if (!unit.byNumbers || global === undefined || (quantity !== 'dni' && quantity !== 'dhi')) return unit;
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
    const column = statedColumn(context, quantity, said.column, width);
    const unit: UnitChoice =
      said.unit === undefined
        ? unitAt(quantity, column)
        : { unit: said.unit, reason: 'stated by the user', byNumbers: false, others: [] };
    take(quantity, column, 'stated by the user', false, unit);
  }
  const wanted = (quantity: QuantityName): boolean => context.stated[quantity] === undefined;

  const candidates = new Map(
    QUANTITIES.map((quantity) => [quantity, wordCandidates(quantity, layout, values, seenOf)] as const),
  );
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
        plainWords(
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
    }
    take(quantity, best.column, best.reason, false, unit);
  }

  const lit = (): boolean =>
    columns.some(({ quantity }) => quantity === 'ghi') ||
    (columns.some(({ quantity }) => quantity === 'dni') &&
      columns.some(({ quantity }) => quantity === 'dhi'));
  if (!lit()) {
    const open = values.map((list, c) =>
      taken.has(c) || (layout.headings[c] && excluded(layout, c)) ? undefined : list,
    );
    const judged = judgeByNumbers(
      open,
      { wall_ms: context.wall_ms, step_s: context.step_s, latitude_deg: context.latitude_deg },
      { latitude_deg: context.latitude_deg, longitude_deg: context.longitude_deg },
      context.offset_ms,
    );
    if (judged.undecided.length > 0 && wanted('ghi')) {
      throw twoLights(context, 'ghi', judged.undecided[0]!, judged.undecided[1]!);
    }
    for (const quantity of [...LIGHTS, 'air_temperature'] as const) {
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
  for (const choice of columns) if (choice.quantity === 'ghi') refuseUnit(context, choice, unitAt);
  return { columns, doubts };
}

/** Columns whose heading, legend or unit speak for a quantity, the strongest first. */
function wordCandidates(
  quantity: QuantityName,
  layout: Layout,
  values: readonly (Float64Array | undefined)[],
  seenOf: (column: number) => Seen,
): Candidate[] {
  const { yes, no } = QUANTITY_WORDS[quantity];
  const list: Candidate[] = [];
  values.forEach((numbers, column) => {
    if (numbers === undefined) return;
    const heading = plainWords(layout.headings[column] ?? '');
    const legend = plainWords((layout.legends[column] ?? '').slice(0, 240));
    if (FLAG_WORDS.test(heading) || no.test(heading) || no.test(legend)) return;
    const strength = (words: string): number =>
      words === ''
        ? 0
        : Math.max(0, ...yes.filter(([pattern]) => pattern.test(words)).map(([, value]) => value));
    const byHeading = strength(heading);
    const byLegend = strength(legend);
    // A legend explains a short name; where it speaks of something else, the name alone means little.
    let total = Math.max(
      byLegend,
      legend !== '' && legend.length > 12 && byLegend === 0 ? byHeading * 0.3 : byHeading,
    );
    if (total < 20) return;
    const stated = unitTexts(layout, column)
      .map(({ text }) =>
        chooseUnit([{ text, where: '' }], quantity, { ...seenOf(column), values: new Float64Array(0) }),
      )
      .find((unit) => !unit.byNumbers);
    if (stated !== undefined) total += stated.unit === 'lx' || stated.unit === 'klx' ? -25 : 5;
    if (total < 90 && !plausible(quantity, numbers, stated !== undefined)) return;
    if (total < 40 && stated === undefined && quantity !== 'ghi') return;
    list.push({
      column,
      strength: total,
      reason:
        byLegend > byHeading
          ? `the legend says "${(layout.legends[column] ?? '').slice(0, 70)}"`
          : `the heading "${layout.headings[column]}"`,
    });
  });
  return list.sort((a, b) => b.strength - a.strength || a.column - b.column);
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

function plausible(quantity: QuantityName, values: Float64Array, unitStated: boolean): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const most = filled.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const least = filled.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (quantity === 'ghi' || quantity === 'dni' || quantity === 'dhi') {
    if (filled.length < 24 || unitStated) return most >= 0;
    const dark = filled.filter((value) => value < 0.02 * most).length;
    return most > 0 && dark > 0.1 * filled.length;
  }
  if (quantity === 'air_temperature') return unitStated || (least > -900 && most < 700);
  return least >= -1 && most < 3000;
}

/** Where a column's unit may be stated, the plainest first. */
function unitTexts(layout: Layout, column: number): { text: string; where: string }[] {
  return [
    { text: layout.units[column] ?? '', where: 'the units row' },
    { text: layout.headings[column] ?? '', where: 'the heading' },
    { text: layout.legends[column] ?? '', where: 'the legend' },
  ].filter(({ text }) => text !== '');
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
  const words = plainWords(`${layout.headings[column]} ${layout.legends[column] ?? ''}`);
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
    fix: 'name one of these, or give its number.',
  });
}

function nameOf(layout: Layout, column: number): string {
  const heading = layout.headings[column];
  return heading ? `"${heading}"` : `column ${column + 1}`;
}

function columnsText(layout: Layout): string {
  if (layout.headings.length === 0) return `${layout.width} columns without headings`;
  const names = layout.headings.filter((heading) => heading !== '').map((heading) => `"${heading}"`);
  return `the columns ${names.slice(0, 20).join(', ')}${names.length > 20 ? ', ...' : ''}`;
}

function twoLights(context: ColumnContext, quantity: QuantityName, a: number, b: number): InputProblem {
  const { layout, file } = context;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    field: quantity,
    got: `${nameOf(layout, a)} and ${nameOf(layout, b)}, which could both be ${quantity} and disagree`,
    expected: `one column for ${quantity}`,
    fix: `say which one is meant: weather.columns.${quantity}.column.`,
  });
}

function noLight(context: ColumnContext): InputProblem {
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: 'ghi',
    got: columnsText(context.layout),
    expected:
      'a column of global irradiance, or of both direct and diffuse, that is dark at night and as bright by day as daylight',
    fix: 'say which column it is: weather.columns.ghi.column.',
  });
}

/** A unit that the numbers do not settle, or that they forbid. */
function refuseUnit(
  context: ColumnContext,
  choice: ColumnChoice,
  unitAt: (quantity: QuantityName, column: number) => UnitChoice,
): void {
  if (choice.unitReason === 'stated by the user') return;
  const unit = unitAt('ghi', choice.column);
  const place = {
    code: 'WEATHER_AMBIGUOUS',
    file: context.file,
    ...(context.layout.headingLine === undefined ? {} : { line: context.layout.headingLine }),
    field: choice.heading || `column ${choice.column + 1}`,
  } as const;
  if (unit.impossible !== undefined) {
    throw new InputProblem({
      ...place,
      got: `${unit.unit} as ${unit.reason}, which would make ${unit.impossible}`,
      expected: `a unit the numbers can be in${unit.others.length > 0 ? `: ${unit.others.join(' or ')}` : ''}`,
      fix: `set weather.columns.ghi.unit${unit.others[0] === undefined ? '' : ` to ${unit.others[0]}`}, or mend the place.`,
    });
  }
  if (unit.others.length > 0) {
    throw new InputProblem({
      ...place,
      got: `no unit, and numbers that could be ${[unit.unit, ...unit.others].join(' or ')}`,
      expected: 'a stated unit, or a longer stretch in which clear days show',
      fix: `say which: weather.columns.ghi.unit: ${unit.unit}${context.latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
    });
  }
}
