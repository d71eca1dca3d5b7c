import { sum } from 'd3-array';
import { ColumnChoices, type ColumnContext } from './ColumnChoices.ts';
import { dailyLight } from './clearDays.ts';
import { twoLights } from './columnProblems.ts';
import { type ColumnChoice, type Doubt, isLight, type Layout, type QuantityName } from './DetectedFormat.ts';
import { foreignUnit } from './foreignUnit.ts';
import { inferColumnsFromValues } from './inferColumnsFromValues.ts';
import { noLight } from './leftAside.ts';
import { comingDown } from './lightComingDown.ts';
import { namedColumn } from './namedColumn.ts';
import { FLAG_WORDS, QUANTITIES, QUANTITY_WORDS } from './quantityWords.ts';
import { type Claim, NEAR_STRENGTH } from './wordClaims.ts';
import { normaliseHeading } from './words.ts';

/**
 * Which column holds which quantity in which unit, by its words, else by its numbers, each with its reason.
 *
 * in: context
 * out: choices and doubts
 * throws: WEATHER_COLUMN_MISSING where there is no light; WEATHER_AMBIGUOUS where two columns could be the same
 * light and disagree, or where the unit cannot be settled
 */
export function chooseColumns(context: ColumnContext): { columns: ColumnChoice[]; doubts: Doubt[] } {
  const choices = new ColumnChoices(context);
  const { stated, units, strict } = context;
  for (const quantity of QUANTITIES) {
    const [name, unit] = [stated[quantity], units[quantity]];
    if (name === undefined || (strict && unit === undefined)) continue;
    const column = namedColumn(context, name, quantity);
    choices.take(
      quantity,
      column,
      `stated by the user${strict ? '' : saidOtherwise(context, quantity, column)}`,
    );
  }
  if (strict) return { columns: choices.columns, doubts: [] };
  for (const quantity of QUANTITIES) if (stated[quantity] === undefined) takeByWords(choices, quantity);
  if (!choices.isLit()) takeByNumbers(choices);
  if (choices.isLit()) return { columns: choices.columns, doubts: choices.doubts };
  throw noLight(choices);
}

/** Where the heading of a column speaks of something else than it shall hold. */
function saidOtherwise({ layout }: ColumnContext, quantity: QuantityName, column: number): string {
  if (!QUANTITY_WORDS[quantity].no.test(normaliseHeading(layout.headings[column] ?? ''))) return '';
  const as = quantity === 'ghi' ? ' and read as light on level ground' : '';
  return `${as}, though its heading says otherwise`;
}

function takeByWords(choices: ColumnChoices, quantity: QuantityName): void {
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

/** Notes a second column whose words say the same; two of light that disagree are refused. */
function weigh(choices: ColumnChoices, quantity: QuantityName, best: Claim, other: Claim): void {
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

function takeByNumbers(choices: ColumnChoices): void {
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
function whyFlat(choices: ColumnChoices, column: number): string | undefined {
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
  return (
    FLAG_WORDS.test(words) || QUANTITY_WORDS.ghi.no.test(words) || foreignUnit(layout, column) !== undefined
  );
}
