import { coordinate, element, label, path } from './element.ts';
import { wrappedWords } from './wrappedWords.ts';

/** An entry of a legend: what a mark looks like, and what it stands for. */
export interface LegendEntry {
  /** Class of a filled swatch; or of a line, where `line` is true. */
  mark: string;
  /** A second class drawn over the first. */
  over?: string;
  line?: boolean;
  /** A circle instead of a swatch. */
  round?: boolean;
  /** A small triangle instead of a swatch. */
  triangle?: boolean;
  words: string;
}

/** Width of a letter of the pictures' 12 px type, on average and on the safe side. */
export const LETTER = 6.4;

/** The same of strong letters. */
export const LETTER_STRONG = 6.8;

/** Room for a swatch, and after an entry. */
const SWATCH = 24;
const GAP = 16;
const ROW = 20;
/** Between the lines of an entry that needs several. */
const LINE = 15;

/**
 * A legend in one or more rows; words too long for a row are broken.
 *
 * in: entries; x and y of its first swatch; right, where a row must end
 * out: markup; height of its rows
 */
export function legend(
  entries: readonly LegendEntry[],
  x: number,
  y: number,
  right: number,
): { markup: string; height: number } {
  let at = x;
  let top = y;
  let rowHeight = ROW;
  const parts = entries.map((entry) => {
    const lines = wrappedWords(entry.words, Math.floor((right - x - SWATCH) / LETTER));
    const width = SWATCH + Math.max(...lines.map((line) => line.length)) * LETTER + GAP;
    if (at > x && at + width > right + GAP) {
      at = x;
      top += rowHeight;
      rowHeight = ROW;
    }
    const left = at;
    at += width;
    rowHeight = Math.max(rowHeight, ROW + (lines.length - 1) * LINE);
    return (
      swatch(entry, left, top) +
      lines.map((line, k) => label(left + SWATCH, top + 10 + k * LINE, line)).join('')
    );
  });
  return { markup: element('g', { class: 'legend' }, parts.join('')), height: top - y + rowHeight };
}

function swatch({ mark, over, line, round, triangle }: LegendEntry, x: number, y: number): string {
  if (triangle) return path(mark, `M${coordinate(x + 9)} ${y + 1}l4.5 9h-9z`);
  if (line) return path(mark, `M${coordinate(x)} ${y + 6}h18`);
  const filled = (kind: string) =>
    round
      ? element('circle', { class: kind, cx: x + 9, cy: y + 6, r: 5.5 })
      : element('rect', { x, y, width: 18, height: 12, class: kind });
  return filled(mark) + (over === undefined ? '' : filled(over));
}
