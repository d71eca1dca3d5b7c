import { chooseUnit, type Seen } from './chooseUnit.ts';
import { isLight, type Layout, type QuantityName } from './DetectedFormat.ts';
import { normaliseHeading } from './normaliseHeading.ts';
import { FLAG_WORDS, QUANTITY_WORDS } from './quantityWords.ts';
import { shortened } from './shortened.ts';

/** A column that may hold a quantity. */
export interface Candidate {
  /** 0-based. */
  column: number;
  /** How strongly its words say so, 0 to about 105. */
  strength: number;
  reason: string;
}

/**
 * Columns whose heading, legend or unit speak for a quantity, the strongest first.
 *
 * in: quantity; layout; values of each column (undefined where it has no numbers or belongs to the stamp); seenOf, what a column's numbers are seen in
 * out: candidates, each with its strength and reason
 */
export function wordCandidates(
  quantity: QuantityName,
  layout: Layout,
  values: readonly (Float64Array | undefined)[],
  seenOf: (column: number) => Seen,
): Candidate[] {
  const { yes, no } = QUANTITY_WORDS[quantity];
  const list: Candidate[] = [];
  values.forEach((numbers, column) => {
    if (numbers === undefined) return;
    const heading = normaliseHeading(layout.headings[column] ?? '');
    const legend = normaliseHeading((layout.legends[column] ?? '').slice(0, 240));
    if (FLAG_WORDS.test(heading) || speaksOfAnother(layout, column) || no.test(heading) || no.test(legend))
      return;
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
          ? `the legend says "${shortened(layout.legends[column] ?? '', 70)}"`
          : `the heading "${layout.headings[column]}"`,
    });
  });
  return list.sort((a, b) => b.strength - a.strength || a.column - b.column);
}

/** A heading made of another one and a mark for its quality, its source or its count ('rad' and 'rad_q'). */
function speaksOfAnother(layout: Layout, column: number): boolean {
  const heading = (layout.headings[column] ?? '').toLowerCase();
  return layout.headings.some((other, c) => {
    const name = other.toLowerCase();
    if (c === column || name.length < 2 || !heading.startsWith(name)) return false;
    return /^[ _.-]?(q|j|n|f|qc|qf|st|src|err\w*|unc\w*|flags?|num\w*|count\w*)$/.test(
      heading.slice(name.length),
    );
  });
}

function plausible(quantity: QuantityName, values: Float64Array, unitStated: boolean): boolean {
  const filled = values.filter((value) => !Number.isNaN(value));
  const most = filled.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const least = filled.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (isLight(quantity)) {
    if (filled.length < 24 || unitStated) return most >= 0;
    const dark = filled.filter((value) => value < 0.02 * most).length;
    return most > 0 && dark > 0.1 * filled.length;
  }
  if (quantity === 'air_temperature') return unitStated || (least > -900 && most < 700);
  return least >= -1 && most < 3000;
}

/** Where a column's unit may be stated, the plainest first. */
export function unitTexts(layout: Layout, column: number): { text: string; where: string }[] {
  return [
    { text: layout.units[column] ?? '', where: 'the units row' },
    { text: layout.headings[column] ?? '', where: 'the heading' },
    { text: layout.legends[column] ?? '', where: 'the legend' },
  ].filter(({ text }) => text !== '');
}
