import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { Change } from '../../trial/Trial.ts';
import { moneyWords } from '../moneyWords.ts';
import { wrapText } from '../textTable.ts';
import { type ChartColumn, chart, numbers, texts } from './chart.ts';
import { coordinate, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';

const TOP = 34;
const LEFT = 470;
const RIGHT = 850;
/** Letters of a line of small words to the left of the bars. */
const LINE = 74;

const COLUMNS: ChartColumn<Change>[] = [
  texts('change', 'change', ({ change }) => change),
  { ...texts<Change>('detail', 'from, to', ({ detail }) => detail), signs: true },
  texts('failed_nights', 'failed nights left', ({ failedNights }) => String(failedNights)),
  texts('failed_nights_before', 'failed nights now', ({ failedNightsBefore }) => String(failedNightsBefore)),
  numbers('short_h', 'short', 'h', 1, (change) => change.short_h),
  numbers('short_before_h', 'short now', 'h', 1, (change) => change.shortBefore_h),
  texts('cost', 'cost', ({ cost }) => (cost === undefined ? '' : fixed(cost, 2))),
];

/**
 * What single changes would do: failed nights left by each, against those there are.
 *
 * in: id; name; changes, best first, at least one; words, the summary, and the currency of costs where
 *   it has a name
 * out: the picture; a rect of class fill-shortPale for each change that leaves failed nights
 */
export function changeChart(
  id: string,
  name: string,
  changes: readonly Change[],
  { summary, currency }: { summary: string; currency: string | undefined },
): Figure {
  const before = changes[0]?.failedNightsBefore ?? 0;
  // A change that makes it much worse runs to the edge; its number says how much.
  const along = scaleLinear([0, Math.max(before * 2, 1)], [LEFT, RIGHT]).clamp(true);
  let bottom = TOP;
  const bars = changes.map((change) => {
    const lines = wrapText(change.detail, 0, 0, LINE);
    const markup = row(change, lines, bottom, along, currency);
    bottom += 30 + lines.length * 15;
    return markup;
  });
  const facts = { key: 'changes', id, title: `Single changes: ${name}`, summary };
  return chart({ ...facts, height: { whole: bottom }, rows: changes, columns: COLUMNS }, () => [
    path('limit', `M${coordinate(along(before))} ${TOP - 8}V${bottom - 8}`),
    ...bars,
    label(along(before), TOP - 14, `now ${before} failed`, 'strong middle'),
  ]);
}

function row(
  change: Change,
  lines: readonly string[],
  y: number,
  along: (nights: number) => number,
  currency: string | undefined,
): string {
  const before = change.failedNightsBefore;
  const count = change.failedNights;
  const adds = change.cost ? `, adds ${moneyWords(change.cost, currency)}` : '';
  const cut = count > before * 2 ? ' (bar cut)' : '';
  const words = `${count === 0 ? 'none failed' : `${count} failed`}${cut}${adds}`;
  return [
    label(0, y + 14, isolated(change.change), 'strong'),
    ...lines.map((line, k) => label(0, y + 30 + k * 15, line)),
    count > 0 ? rect('fill-shortPale', { x: LEFT, y: y + 6, width: along(count) - LEFT, height: 18 }) : '',
    label(along(count) + 8, y + 20, words, count < before ? 'strong halo' : 'axis halo'),
  ].join('');
}
