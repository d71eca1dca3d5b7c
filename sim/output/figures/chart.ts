import { fixed } from '../../common/csvText.ts';
import { type Box, borrowed, element, svg, wordsMarkup } from './element.ts';
import type { Figure, FigureTable, Narrow, TableColumn } from './Figure.ts';
import { type LegendEntry, legend } from './legend.ts';

const WIDTH = 1000;
/** Of a picture for a phone. */
const NARROW = 360;
/** Room on the left for the numbers of an axis, and on the right. */
const LEFT = 52;
const NARROW_LEFT = 46;
const RIGHT = 12;

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
  /** Height of the whole picture, or of its plot, which may go by the plot's width. */
  height: { whole: number } | { plot: number | ((width: number) => number) };
  /** Room between legend and plot, below the plot, and on its left. */
  above?: number;
  below?: number;
  left?: number;
  /** For a narrow screen, where that is not the same picture less wide. in: id of the first panel's marks; its box */
  narrow?: (marks_id: string, box: Box) => Narrow;
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

/** A part of a plot, and its marks. The picture for a narrow screen borrows them, pressed together: no words, no circles. */
export interface Panel {
  box: Box;
  marks: () => readonly string[];
}

/** What a chart draws: panels, and over them what each of its forms has of its own. */
export interface Marks {
  panels?: readonly Panel[];
  own?: readonly string[];
}

/**
 * A picture of rows of data: legend above, plot below it, the data as a table, and what a pointer into the plot reads;
 * for a wide and for a narrow screen.
 *
 * in: facts; draw, gives what is drawn into a plot
 * out: the picture
 */
export function chart<Row>(facts: ChartFacts<Row>, draw: (plot: Box) => Marks): Figure {
  const { key, title, summary, rows, columns, reader, left = LEFT } = facts;
  const { size, plot, key: entries } = layout(facts, WIDTH, left);
  const { panels = [], own = [] } = draw(plot);
  const groups = panels.map(({ marks }, k) =>
    // The class of the whole picture once more: where the group is borrowed, styles find nothing above it.
    element('g', { id: marksId(facts, k), class: 'picture' }, marks().join('')),
  );
  let table: FigureTable | undefined;
  return {
    key,
    title,
    summary,
    ...size,
    svg: svg(`picture-${key}`, size, named(facts), [
      element('title', { id: `${facts.id}-${key}-title` }, wordsMarkup(title)),
      element('desc', { id: `${facts.id}-${key}-summary` }, wordsMarkup(summary)),
      entries,
      ...groups,
      ...own,
    ]),
    get table() {
      table ??= tableOf(rows, columns);
      return table;
    },
    reader: reader && { ...plot, panels: within(plot, panels), ...readerOf(reader, rows) },
    narrow: facts.narrow?.(marksId(facts, 0), panels[0]!.box) ?? pressed(facts, panels, plot.height, draw),
  };
}

function tableOf<Row>(rows: readonly Row[], columns: readonly ChartColumn<Row>[]): FigureTable {
  return {
    columns: columns.map(({ cell, ...column }) => column),
    rows: rows.map((row, k) => columns.map(({ cell }) => cell(row, k))),
  };
}

/** The picture for a narrow screen: legend and words of its own, the marks those of the wide one. */
function pressed<Row>(
  facts: ChartFacts<Row>,
  wide: readonly Panel[],
  height: number,
  draw: (plot: Box) => Marks,
): Narrow {
  const { size, plot, key } = layout(
    'plot' in facts.height ? facts : { ...facts, height: { plot: height } },
    NARROW,
    facts.left ?? NARROW_LEFT,
  );
  const { panels = [], own = [] } = draw(plot);
  const marks = panels.map(({ box }, k) => borrowed(marksId(facts, k), wide[k]!.box, box));
  return {
    ...size,
    plot,
    panels: within(plot, panels),
    turned: false,
    svg: svg(`picture-${facts.key}-narrow`, size, named(facts), [key, ...marks, ...own]),
  };
}

/** The panels that the rows of the data run along. */
function within({ y, height }: Box, panels: readonly Panel[]): Box[] {
  return panels.map(({ box }) => box).filter((box) => box.y >= y && box.y < y + height);
}

/** Size and plot of a picture of a width, and its legend. */
function layout<Row>(
  { legend: entries, height, above = 0, below = 0 }: ChartFacts<Row>,
  width: number,
  left: number,
): { size: Pick<Box, 'width' | 'height'>; plot: Box; key: string } {
  // Names of marks may begin further left than a narrow plot.
  const from = width < WIDTH ? 4 : left;
  const key = entries === undefined ? NO_LEGEND : legend(entries, from, 4, width - RIGHT);
  const y = key.height + above;
  const inner = width - left - RIGHT;
  const plot =
    'whole' in height
      ? height.whole - y - below
      : typeof height.plot === 'number'
        ? height.plot
        : height.plot(inner);
  return {
    size: { width, height: y + plot + below },
    plot: { x: left, y, width: inner, height: plot },
    key: key.markup,
  };
}

const NO_LEGEND = { markup: '', height: 0 };

function marksId({ id, key }: Pick<ChartFacts<unknown>, 'id' | 'key'>, k: number): string {
  return `${id}-${key}-marks${k === 0 ? '' : k + 1}`;
}

/** A picture is named by its title and summary, which only the wide one holds. */
function named({ id, key }: Pick<ChartFacts<unknown>, 'id' | 'key'>): Record<string, string> {
  return { role: 'img', 'aria-labelledby': `${id}-${key}-title ${id}-${key}-summary` };
}

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
