import { max, quantile, sum } from 'd3-array';
import { nearestWord } from '../../common/hints.ts';
import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import { toCanonical, type UnitName } from '../../tables/units.ts';
import { chooseUnit, clearest, dailyLight, type Seen, type UnitChoice, unitTyped } from './chooseUnit.ts';
import {
  type ColumnSample,
  codesWithin,
  columnNumbers,
  columnValues,
  inferColumnsFromValues,
} from './columnNumbers.ts';
import {
  type ColumnChoice,
  columnName,
  columnTexts,
  type Doubt,
  headingPlace,
  isLight,
  type Layout,
  type QuantityName,
} from './DetectedFormat.ts';
import { FLAG_WORDS, QUANTITIES, QUANTITY_WORDS } from './quantityWords.ts';
import { type Claim, listed, normaliseHeading, typed, wordClaims } from './words.ts';

/** What the columns are chosen from. */
export interface ColumnContext extends ColumnSample {
  file: string;
  /** What the user says; always wins. */
  stated: Partial<Record<QuantityName, string>>;
  units: Partial<Record<QuantityName, UnitName>>;
  /** Nothing but what is stated. */
  strict: boolean;
}

/** Claims whose words are this near are settled by their numbers or not at all. */
const NEAR_STRENGTH = 15;
/** A balance of radiation: in so many rows so far below zero, as a share of its highest value. From memory. */
const BALANCE = { below: 0.02, rows: 0.1 } as const;
/**
 * Light that the ground sends back: at most this share of what comes down (more only over snow), its quartiles this
 * near; what comes down lets through so much of the light outside the air on clear days. Common practice, no source.
 */
const SENT_BACK = { most: 0.45, spread: 1.5, clear: 0.5 } as const;

/**
 * Which column holds which quantity in which unit, by its words, else by its numbers, each with its reason.
 *
 * in: context
 * out: choices and doubts
 * throws: WEATHER_COLUMN_MISSING where there is no light; WEATHER_AMBIGUOUS where two columns could be the same
 * light and disagree, or where the unit cannot be settled
 */
export function chooseColumns(context: ColumnContext): { columns: ColumnChoice[]; doubts: Doubt[] } {
  const choices = new Choices(context);
  const { stated, units, strict } = context;
  for (const quantity of QUANTITIES) {
    const [name, unit] = [stated[quantity], units[quantity]];
    if (name !== undefined && (!strict || unit !== undefined))
      choices.take(quantity, namedColumn(context, name, quantity), 'stated by the user');
  }
  if (strict) return { columns: choices.columns, doubts: [] };
  for (const quantity of QUANTITIES) if (stated[quantity] === undefined) takeByWords(choices, quantity);
  if (!choices.isLit()) takeByNumbers(choices);
  if (choices.isLit()) return { columns: choices.columns, doubts: choices.doubts };
  throw new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file: context.file,
    ...headingPlace(context.layout),
    field: 'ghi',
    got: columnsText(context.layout),
    expected:
      'a column of global irradiance, or of both direct and diffuse, that is dark at night and as bright by day as daylight',
    fix: '--column ghi=NAME, with the heading or the number of the column (in a scenario, weather.columns.ghi.column).',
  });
}

/** What has been chosen so far, and the numbers and words it is chosen from. */
class Choices {
  readonly context: ColumnContext;
  readonly columns: ColumnChoice[] = [];
  readonly doubts: Doubt[] = [];
  /** Numbers of each column, undefined where it has none; sums that run through the day are taken apart. */
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
    const step_s = per_s ?? (this.context.step_s > 0 ? this.context.step_s : 3600);
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
      reason: isRunning ? `${reason}; sums that run through the day, taken apart` : reason,
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

function takeByWords(choices: Choices, quantity: QuantityName): void {
  const open = choices.open(quantity);
  const [best, ...others] = quantity === 'ghi' ? comingDown(choices, open) : open;
  if (best === undefined) return;
  for (const other of others) weigh(choices, quantity, best, other);
  const lacksGlobal = (choices.chosen('ghi') ?? choices.chosen('bhi')) === undefined;
  // What falls on the horizontal serves only where nobody states the global irradiance.
  if (quantity === 'bhi' && !lacksGlobal) return;
  const isBeam = quantity !== 'dni' || saysNormal(choices.context.layout, best);
  const why = isBeam ? undefined : whyFlat(choices, best.column);
  if (why === undefined) choices.take(quantity, best.column, best.reason);
  else if (lacksGlobal) choices.take('bhi', best.column, `${best.reason}; ${why}`);
  else choices.doubt('dni', undefined, best.column, `${why}, so it is the beam on the horizontal`);
}

/**
 * Of columns whose words speak of global light alike, those whose numbers can be light that comes down; the others are
 * noted. Without one of that kind, all.
 */
function comingDown(choices: Choices, list: Claim[]): Claim[] {
  const near = list.filter(({ strength }) => list[0]!.strength - strength <= NEAR_STRENGTH);
  const whyNot = ({ column }: Claim): string | undefined =>
    isBalance(choices.values[column]!)
      ? 'its nights are far below zero, as a balance of radiation is'
      : near.some((other) => isSentBack(choices, column, other.column))
        ? 'its numbers are a small and steady share of the first, as light that the ground sends back'
        : undefined;
  const others = near.flatMap((claim) => {
    const why = whyNot(claim);
    return why === undefined ? [] : [{ claim, why }];
  });
  if (others.length === near.length) return list;
  const rest = list.filter((candidate) => others.every(({ claim }) => claim !== candidate));
  for (const { claim, why } of others) choices.doubt('ghi', rest[0]!.column, claim.column, why);
  return rest;
}

/** At night the ground loses more than the sky gives back; a light meter's zero strays by far less. */
function isBalance(values: Float64Array): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const least = -BALANCE.below * (max(filled) ?? 0);
  return filled.filter((value) => value < least).length > BALANCE.rows * filled.length;
}

/** By day a small share of another column that is as bright as the sun on clear days, and much the same share always. */
function isSentBack(choices: Choices, column: number, other: number): boolean {
  const [unit, otherUnit] = [choices.unitOf('ghi', column), choices.unitOf('ghi', other)];
  // Numbers alone would give dim light a greater unit.
  const part = choices.canonical(column, unit.byNumbers ? otherUnit : unit);
  const whole = choices.canonical(other, otherUnit);
  const bright = 0.1 * (max(whole) ?? 0);
  const shares = part.map((value, i) => value / whole[i]!).filter((_, i) => whole[i]! > bright);
  const at = (share: number): number => quantile(shares, share) ?? Number.NaN;
  return (
    at(0.5) < SENT_BACK.most &&
    at(0.75) < SENT_BACK.spread * at(0.25) &&
    clearest(choices.seen(other), otherUnit).index > SENT_BACK.clear
  );
}

/** Notes a second column whose words say the same; two of light that disagree are refused. */
function weigh(choices: Choices, quantity: QuantityName, best: Claim, other: Claim): void {
  const near = best.strength - other.strength <= NEAR_STRENGTH;
  const alike = agree(
    choices.canonicalAs(quantity, best.column),
    choices.canonicalAs(quantity, other.column),
  );
  if (isLight(quantity) && near && !alike)
    throw twoLights(choices.context, quantity, best.column, other.column);
  if (!near && other.strength <= 60) return;
  const why = alike
    ? 'both hold the same values'
    : 'the words of the first say it more clearly, or it comes first';
  choices.doubt(quantity, best.column, other.column, why);
}

function takeByNumbers(choices: Choices): void {
  const { layout, stated } = choices.context;
  const open = choices.values.map((list, c) =>
    choices.isTaken(c) || (layout.headings[c] && excluded(layout, c)) ? undefined : list,
  );
  const { judged, undecided } = inferColumnsFromValues(open, choices.context);
  if (undecided.length > 0 && stated.ghi === undefined)
    throw twoLights(choices.context, 'ghi', undecided[0]!, undecided[1]!);
  for (const { quantity, column, reason, runnerUp } of judged) {
    if (choices.isTaken(column) || choices.chosen(quantity) !== undefined) continue;
    choices.take(quantity, column, `by its numbers alone: ${reason}`);
    choices.doubt(quantity, column, runnerUp, 'no heading says so; judged by its numbers');
  }
}

/** Where both have a value they differ by little. */
function agree(a: Float64Array, b: Float64Array): boolean {
  const off = sum(a, (value, i) => Math.abs(value - b[i]!));
  return off <= 0.02 * sum(a, (value, i) => Math.abs(value) + 0 * b[i]!);
}

/** Words that say that a beam faces the sun. */
function saysNormal({ headings, legends }: Layout, { column, reason }: Claim): boolean {
  const words = normaliseHeading(`${reason} ${headings[column] ?? ''} ${legends[column] ?? ''}`);
  return /normal|dni|bni|dir ?nor/.test(words);
}

/**
 * What shows that a beam is measured on the horizontal; undefined where nothing does. Beside global and diffuse light it
 * is their difference. Light facing the sun outshines what falls on the horizontal outside the air where the sun is low,
 * within 30 degrees of the horizon at noon; light on the horizontal never does.
 */
function whyFlat(choices: Choices, column: number): string | undefined {
  const beam = choices.canonicalAs('dni', column);
  const global = choices.chosen('ghi');
  const diffuse = choices.diffuse();
  if (global !== undefined) {
    if (diffuse === undefined) return undefined;
    const part = choices.canonicalAs('dhi', diffuse);
    const difference = choices.canonical(global.column, global).map((value, i) => value - part[i]!);
    return agree(difference, beam) ? 'global less diffuse is this column itself' : undefined;
  }
  const { wall_ms, latitude_deg } = choices.context;
  const { most, noon_W_m2 } = dailyLight(beam, wall_ms, latitude_deg);
  const low = most.flatMap((top, d) =>
    noon_W_m2[d]! > 100 && noon_W_m2[d]! < 680 ? [top / noon_W_m2[d]!] : [],
  );
  const isNeverAbove = latitude_deg !== undefined && low.length >= 20 && Math.max(...low) < 0.9;
  return isNeverAbove ? 'on no day brighter than what falls on the horizontal' : undefined;
}

function excluded(layout: Layout, column: number): boolean {
  const words = normaliseHeading(`${layout.headings[column]} ${layout.legends[column] ?? ''}`);
  return FLAG_WORDS.test(words) || QUANTITY_WORDS.ghi.no.test(words);
}

/**
 * The column that the user names, by its heading or its number.
 *
 * in: file, name for messages; layout; name; what it shall hold, a quantity or 'time'
 * throws: WEATHER_COLUMN_MISSING, WEATHER_AMBIGUOUS where two bear the name
 */
export function namedColumn(
  { file, layout }: Pick<ColumnContext, 'file' | 'layout'>,
  name: string,
  what: QuantityName | 'time',
): number {
  const named = (reads: (text: string) => string): number[] =>
    layout.headings.flatMap((heading, c) => (reads(heading) === reads(name.trim()) ? [c] : []));
  const exact = named((text) => text);
  const byName = exact.length > 0 ? exact : named((text) => text.toLowerCase());
  const place = { file, ...headingPlace(layout), field: name };
  if (byName.length > 1) {
    throw new InputProblem({
      ...place,
      code: 'WEATHER_AMBIGUOUS',
      got: `the heading twice, in columns ${byName[0]! + 1} and ${byName[1]! + 1}`,
      expected: 'one column of that name',
      fix: `rename one of them, or name it by its number, as ${byName[0]! + 1}.`,
    });
  }
  if (byName.length === 1) return byName[0]!;
  const number = Number(/^(?:column )?(\d+)$/.exec(name.trim())?.[1]);
  if (number >= 1 && number <= Math.max(layout.width, layout.headings.length)) return number - 1;
  const near = nearestWord(name, layout.headings);
  const meant = near === undefined ? '' : `did you mean "${near}"? `;
  throw new InputProblem({
    ...place,
    code: 'WEATHER_COLUMN_MISSING',
    got: columnsText(layout),
    expected: `a column "${name}" for ${what}`,
    fix:
      what === 'time'
        ? `${meant}Name one of these, or its number, in weather.stamp.column.`
        : `${meant}--column ${what}=NAME, with one of these, or its number.`,
  });
}

/** A column as it is typed; by number where its heading is not its own. */
function columnTyped({ headings }: Layout, quantity: QuantityName, column: number): string {
  const heading = headings[column] ?? '';
  const isOwn = heading !== '' && headings.filter((other) => other === heading).length === 1;
  return `--column ${typed(`${quantity}=${isOwn ? heading : column + 1}`)}`;
}

/** The columns there are, in words. */
function columnsText(layout: Layout): string {
  if (layout.headings.length === 0) return `${layout.width} columns without headings`;
  return `the columns ${listed(
    layout.headings.filter((heading) => heading !== ''),
    20,
  )}`;
}

/** Two columns that could be the same light and disagree. */
function twoLights(context: ColumnContext, quantity: QuantityName, a: number, b: number): InputProblem {
  const { layout, file } = context;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...headingPlace(layout),
    field: quantity,
    got: `${columnName(layout, a)} and ${columnName(layout, b)}, which could both be ${quantity} and disagree`,
    expected: `one column for ${quantity}`,
    ...fixOf(
      [a, b].map((column) => columnTyped(layout, quantity, column)),
      ` (in a scenario, weather.columns.${quantity}.column).`,
    ),
  });
}

/** A unit of global irradiance that its numbers do not settle. */
function unitOpen(
  { file, layout, latitude_deg }: ColumnContext,
  quantity: QuantityName,
  column: number,
  { unit, others }: UnitChoice,
): InputProblem {
  const units = [unit, ...others];
  const key = quantity === 'ghi' ? ' (in a scenario, weather.columns.ghi.unit)' : '';
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    ...headingPlace(layout),
    field: layout.headings[column] || `column ${column + 1}`,
    got: `no unit, and numbers that could be ${units.join(' or ')}`,
    expected: 'a stated unit, or a longer stretch in which clear days show',
    ...fixOf(
      units.map((name) => unitTyped(quantity, name)),
      `${key}${latitude_deg === undefined ? '; a latitude may settle it too' : ''}.`,
    ),
  });
}
