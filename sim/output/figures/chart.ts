import { type ScaleLinear, scaleBand, scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import { type Box, coordinate, element, label, path, rect, svg, wordsMarkup } from './element.ts';
import type { Drawing, Figure, TableColumn } from './Figure.ts';

const WIDTH = 1000;
/** Of a picture for a phone. */
const NARROW = 360;
/** Room on the left for the numbers of an axis, and on the right. */
const LEFT = 52;
const RIGHT = 12;

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

/** A column of a chart's data, and what it says of a row. */
export interface ChartColumn<Row> extends TableColumn {
  cell: (row: Row, index: number) => string;
}

/** A column of words. */
export function texts<Row>(
  heading: string,
  label: string,
  cell: (row: Row, index: number) => string,
): ChartColumn<Row> {
  return { heading, label, cell };
}

/** A column of numbers with fixed decimals. */
export function numbers<Row>(
  heading: string,
  label: string,
  unit: string,
  decimals: number,
  of: (row: Row) => number,
): ChartColumn<Row> {
  return { heading, label, unit, cell: (row) => fixed(of(row), decimals) };
}

/** What a chart is, beside its marks. */
interface ChartFacts<Row> {
  key: string;
  /** Makes the ids of the picture its own on a page with many. */
  id: string;
  title: string;
  summary: string;
  legend?: readonly LegendEntry[];
  /** Height of the whole picture, or of its plot. */
  height: { whole: number } | { plot: number };
  /** Room between legend and plot, below the plot, and on its left. */
  above?: number;
  below?: number;
  left?: number;
  /** Drawn for a narrow screen too. */
  narrow?: true;
  /** The data, a row for each step along the plot. */
  rows: readonly Row[];
  columns: readonly ChartColumn<Row>[];
  /** For whoever points into the plot; a picture without a row's place in it has none. */
  reader?: {
    step: string;
    /** Row to begin with; the middle one unless there is such a row. */
    first?: number;
    stops?: { name: string; at: (row: Row, index: number) => boolean };
  };
}

/**
 * A picture of rows of data: legend above, plot below it, the data as a table, and what a pointer into the plot reads.
 *
 * in: facts; marks, drawn into the plot
 * out: the picture
 */
export function chart<Row>(facts: ChartFacts<Row>, marks: (plot: Box) => readonly string[]): Figure {
  const { key, title, summary, rows, columns, reader } = facts;
  const { plot, ...drawn } = drawing(facts, WIDTH, marks);
  return {
    key,
    title,
    summary,
    ...drawn,
    table: {
      columns: columns.map(({ cell, ...column }) => column),
      rows: rows.map((row, k) => columns.map(({ cell }) => cell(row, k))),
    },
    reader: reader && { ...plot, ...readerOf(reader, rows) },
    ...(facts.narrow === true && {
      narrow: { ...drawing({ ...facts, id: `${facts.id}-narrow` }, NARROW, marks), turned: false },
    }),
  };
}

function drawing<Row>(
  facts: ChartFacts<Row>,
  width: number,
  marks: (plot: Box) => readonly string[],
): Drawing {
  const { above = 0, below = 0, left = LEFT } = facts;
  const entries = facts.legend === undefined ? NO_LEGEND : legend(facts.legend, left, 4, width - RIGHT);
  const y = entries.height + above;
  const plotHeight = 'plot' in facts.height ? facts.height.plot : facts.height.whole - y - below;
  const plot: Box = { x: left, y, width: width - left - RIGHT, height: plotHeight };
  const size = { width, height: y + plotHeight + below };
  return { ...size, plot, svg: svgOf(facts, size, [entries.markup, ...marks(plot)]) };
}

const NO_LEGEND = { markup: '', height: 0 };

function readerOf<Row>(
  { step, first = -1, stops }: NonNullable<ChartFacts<Row>['reader']>,
  rows: readonly Row[],
): Pick<NonNullable<Figure['reader']>, 'step' | 'stops' | 'first'> {
  return {
    step,
    stops: stops && {
      name: stops.name,
      rows: rows.flatMap((row, k) => (stops.at(row, k) ? [k] : [])),
    },
    first: first < 0 ? Math.floor(rows.length / 2) : first,
  };
}

/** Colours come from classes, which the page's style sheet or `standaloneSvg` gives. */
function svgOf(
  { id, key, title, summary }: Pick<ChartFacts<unknown>, 'id' | 'key' | 'title' | 'summary'>,
  size: Pick<Box, 'width' | 'height'>,
  marks: readonly string[],
): string {
  const title_id = `${id}-${key}-title`;
  const summary_id = `${id}-${key}-summary`;
  const named = { role: 'img', 'aria-labelledby': `${title_id} ${summary_id}` };
  return svg(`picture-${key}`, size, named, [
    element('title', { id: title_id }, wordsMarkup(title)),
    element('desc', { id: summary_id }, wordsMarkup(summary)),
    ...marks,
  ]);
}

/** Width of a letter of the pictures' 12 px type, on average and on the safe side. */
export const LETTER = 6.4;

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

function swatch({ mark, over, line, round, triangle }: LegendEntry, x: number, y: number): string {
  if (triangle) return path(mark, `M${coordinate(x + 9)} ${y + 1}l4.5 9h-9z`);
  if (line) return path(mark, `M${coordinate(x)} ${y + 6}h18`);
  const filled = (kind: string) =>
    round
      ? element('circle', { class: kind, cx: x + 9, cy: y + 6, r: 5.5 })
      : element('rect', { x, y, width: 18, height: 12, class: kind });
  return filled(mark) + (over === undefined ? '' : filled(over));
}

/** Steps of a count from the left of a plot to its right. */
export function rightward(plot: Box, count: number): ScaleLinear<number, number> {
  return scaleLinear([0, Math.max(count, 1)], [plot.x, plot.x + plot.width]);
}

/** Values from the bottom of a plot to its top. */
export function upward(plot: Box, from: number, to: number): ScaleLinear<number, number> {
  return scaleLinear([from, to], [plot.y + plot.height, plot.y]);
}

/**
 * The axis on the left of a plot: a hairline and a number for each round value, the unit at the topmost.
 *
 * in: up, value to y; plot; ticks, about how many; unit
 * out: markup
 */
export function verticalAxis(up: ScaleLinear<number, number>, plot: Box, ticks: number, unit = ''): string {
  const values = up.ticks(ticks);
  const write = up.tickFormat(ticks);
  const lines = values.map((value) => `M${plot.x} ${coordinate(up(value))}H${plot.x + plot.width}`);
  const words = values.map((value, k) => {
    // As numbers stand everywhere else: a plain minus, thousands not parted.
    const number = write(value).replace('\u2212', '-').replaceAll(',', '');
    return label(
      plot.x - 8,
      up(value) + 4,
      `${number}${k === values.length - 1 ? ` ${unit}` : ''}`,
      'axis end',
    );
  });
  return path('grid', lines.join('')) + words.join('');
}

/** A bar from zero up to a value; none where there is no value. */
export function bar(
  kind: string,
  x: number,
  width: number,
  value: number,
  up: (value: number) => number,
): string {
  if (!(value >= 0)) return '';
  return rect(kind, { x, y: up(value), width, height: up(0) - up(value) });
}

/** Bars of one month side by side, over a width, with a gap between them as a share of a bar and its gap. */
export function barGroup(
  bars: readonly { mark: string; value: number }[],
  x: number,
  width: number,
  gap: number,
  up: (value: number) => number,
): string[] {
  const within = scaleBand(bars.keys(), [0, width]).paddingInner(gap);
  return bars.map(({ mark, value }, k) =>
    bar(`${mark} edged`, x + (within(k) ?? 0), within.bandwidth(), value, up),
  );
}
