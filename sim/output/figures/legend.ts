import { element } from './element.ts';
import { label } from './label.ts';

/** An entry of a legend: what a mark looks like, and what it stands for. */
export interface LegendEntry {
  /** Class of a filled swatch; or of a line, where `line` is true. */
  mark: string;
  /** A second class drawn over the first. */
  over?: string;
  line?: boolean;
  /** A small triangle instead of a swatch. */
  triangle?: boolean;
  words: string;
}

/** Width of a letter of the pictures' 12 px type, on average and on the safe side. */
const LETTER = 6.4;

/**
 * A legend in one or more rows.
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
  let row = 0;
  const parts = entries.map((entry) => {
    const width = 24 + entry.words.length * LETTER + 16;
    if (at > x && at + width > right + 16) {
      at = x;
      row++;
    }
    const left = at;
    const top = y + row * 20;
    at += width;
    return swatch(entry, left, top) + label(left + 24, top + 10, entry.words);
  });
  return { markup: element('g', { class: 'legend' }, parts.join('')), height: (row + 1) * 20 };
}

function swatch(entry: LegendEntry, x: number, y: number): string {
  if (entry.triangle) return element('path', { class: entry.mark, d: `M${x + 9} ${y + 1}l4.5 9h-9z` });
  if (entry.line) return element('path', { class: entry.mark, d: `M${x} ${y + 6}h18` });
  const box = { x, y, width: 18, height: 12 };
  const over = entry.over === undefined ? '' : element('rect', { ...box, class: entry.over });
  return element('rect', { ...box, class: entry.mark }) + over;
}
