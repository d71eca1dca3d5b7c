import { extent, max } from 'd3-array';
import { columnTexts, isLight, type Layout, type QuantityName } from './DetectedFormat.ts';
import { foreignUnit } from './foreignUnit.ts';
import { FLAG_WORDS, QUANTITIES, QUANTITY_WORDS } from './quantityWords.ts';
import { unitFromWords } from './unitFromWords.ts';
import { normaliseHeading, shortened } from './words.ts';

/** Claims whose words are this near are settled by their numbers or not at all. */
export const NEAR_STRENGTH = 15;

/** What the words of a column say it holds. */
export interface Claim {
  quantity: QuantityName;
  /** 0-based. */
  column: number;
  /** How strongly they say so, 0 to about 105. */
  strength: number;
  reason: string;
}

/**
 * What heading, legend and unit of each column speak for, the strongest first.
 *
 * in: layout; values of each column (undefined where it has no numbers or belongs to the stamp)
 * out: claims; a column has none, or one of each quantity that its words could mean
 */
export function wordClaims(layout: Layout, values: readonly (Float64Array | undefined)[]): Claim[] {
  const claims = values.flatMap((numbers, column) =>
    numbers === undefined || speaksOfAnother(layout, column)
      ? []
      : QUANTITIES.map((quantity) => claimOf(quantity, layout, column, numbers)),
  );
  return claims
    .filter((claim) => claim !== undefined)
    .sort((a, b) => b.strength - a.strength || a.column - b.column);
}

function claimOf(
  quantity: QuantityName,
  layout: Layout,
  column: number,
  numbers: Float64Array,
): Claim | undefined {
  if (isLight(quantity) && foreignUnit(layout, column) !== undefined) return undefined;
  const { yes, no } = QUANTITY_WORDS[quantity];
  const heading = normaliseHeading(layout.headings[column] ?? '');
  const legend = normaliseHeading((layout.legends[column] ?? '').slice(0, 240));
  if (no.test(heading) || no.test(legend)) return undefined;
  const strengthOf = (words: string): number =>
    max(yes, ([pattern, value]) => (words !== '' && pattern.test(words) ? value : 0))!;
  const [byHeading, byLegend] = [strengthOf(heading), strengthOf(legend)];
  // A legend explains a short name; where it speaks of something else, the name alone means little.
  const isGainsaid = legend.length > 12 && byLegend === 0;
  const words = Math.max(byLegend, isGainsaid ? byHeading * 0.3 : byHeading);
  if (words < 20) return undefined;
  const stated = columnTexts(layout, column)
    .map(({ text }) => unitFromWords(text, quantity)?.unit)
    .find((unit) => unit !== undefined);
  const strength = words + (stated === undefined ? 0 : stated.endsWith('lx') ? -25 : 5);
  if (strength < 90 && !plausible(quantity, numbers, stated !== undefined)) return undefined;
  if (strength < 40 && stated === undefined && quantity !== 'ghi') return undefined;
  const reason =
    byLegend > byHeading
      ? `the legend says "${shortened(layout.legends[column]!, 70)}"`
      : `the heading "${layout.headings[column]}"`;
  return { quantity, column, strength, reason };
}

/** A heading of marks, or of another heading and a mark for its quality, its source or its count ('rad' and 'rad_q'). */
export function speaksOfAnother({ headings }: Layout, column: number): boolean {
  const heading = (headings[column] ?? '').toLowerCase();
  const mark = /^[ _.-]?(q|j|n|f|qc|qf|st|src|err\w*|unc\w*|flags?|num\w*|count\w*)$/;
  const others = headings.filter((_, c) => c !== column).map((other) => other.toLowerCase());
  return (
    FLAG_WORDS.test(normaliseHeading(headings[column] ?? '')) ||
    others.some(
      (name) => name.length > 1 && heading.startsWith(name) && mark.test(heading.slice(name.length)),
    )
  );
}

function plausible(quantity: QuantityName, values: Float64Array, unitStated: boolean): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const [least = Infinity, most = -Infinity] = extent(filled);
  if (isLight(quantity)) {
    if (filled.length < 24 || unitStated) return most >= 0;
    return most > 0 && filled.filter((value) => value < 0.02 * most).length > 0.1 * filled.length;
  }
  if (quantity === 'air_temperature') return unitStated || (least > -900 && most < 700);
  return least >= -1 && most < 3000;
}
