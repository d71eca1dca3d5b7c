import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { Change } from '../../trial/Trial.ts';
import { moneyWords } from '../moneyWords.ts';
import { type ChartColumn, chart, numbers, texts } from './chart.ts';
import { coordinate, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { LETTER, LETTER_STRONG } from './legend.ts';
import { wrappedWords } from './wrappedWords.ts';

/** Where bars begin and end, the words of a change to their left; on a narrow screen all is below each other. */
const WIDE = { from: 470, to: 850, words: 440 };
const NARROW_TO = 250;
const LINE = 15;

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
  return chart(
    {
      key: 'changes',
      id,
      title: `Single changes: ${name}`,
      summary,
      legend: [
        { mark: 'fill-shortPale', over: 'outlineSoft', words: 'failed nights left' },
        { mark: 'tick', line: true, words: `now: ${before} failed` },
      ],
      height: {
        plot: (width) => changes.reduce((sum, change) => sum + rowOf(change, width, currency).height, 0),
      },
      left: 4,
      above: 8,
      rows: changes,
      columns: COLUMNS,
    },
    ({ x, y, width }) => {
      let bottom = y;
      const own = changes.map((change) => {
        const row = rowOf(change, width, currency);
        const markup = row.markup(x, bottom);
        bottom += row.height;
        return markup;
      });
      return { own };
    },
  );
}

/** A change's row: its height, and its markup from a place on. */
function rowOf(
  change: Change,
  width: number,
  currency: string | undefined,
): { height: number; markup: (x: number, y: number) => string } {
  const wide = width > WIDE.to;
  const room = wide ? WIDE.words : width;
  const names = wrappedWords(isolated(change.change), room / LETTER_STRONG);
  const details = wrappedWords(change.detail, room / LETTER);
  const lines = (x: number, y: number) =>
    [
      ...names.map((line, k) => label(x, y + 14 + k * LINE, line, 'strong')),
      ...details.map((line, k) => label(x, y + 15 + (names.length + k) * LINE, line)),
    ].join('');
  const deep = (names.length + details.length) * LINE;
  const nights = nightsLeft(change, currency);
  return wide
    ? {
        height: deep + 16,
        markup: (x, y) => lines(x, y) + nights(x + WIDE.from, x + WIDE.to, y + 6, 18, 'beside'),
      }
    : {
        height: deep + 50,
        markup: (x, y) => lines(x, y) + nights(x, x + NARROW_TO, y + deep + 22, 12, 'above'),
      };
}

/** The nights that a change leaves as a bar, those there are as a tick across it, and the number. */
function nightsLeft(
  { failedNights: count, failedNightsBefore: before, cost }: Change,
  currency: string | undefined,
) {
  const adds = cost ? `, adds ${moneyWords(cost, currency)}` : '';
  const cut = count > before * 2 ? ' (bar cut)' : '';
  const words = `${count === 0 ? 'none failed' : `${count} failed`}${cut}${adds}`;
  const kind = count < before ? 'strong' : 'axis';
  return (from: number, to: number, y: number, height: number, place: 'beside' | 'above'): string => {
    // A change that makes it much worse runs to the edge; its number says how much.
    const along = scaleLinear([0, Math.max(before * 2, 1)], [from, to]).clamp(true);
    const bar = { x: from, y, width: along(count) - from, height };
    const tick = `M${coordinate(along(before))} ${y - 4}v${height + 8}`;
    return [
      count > 0 ? rect('fill-shortPale edged', bar) : '',
      path('tick', tick),
      place === 'above'
        ? label(from, y - 7, words, kind)
        : label(along(Math.max(count, before)) + 10, y + height / 2 + 4, words, kind),
    ].join('');
  };
}
