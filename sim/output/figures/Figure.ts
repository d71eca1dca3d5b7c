import type { Box } from './element.ts';

/** A column of the data behind a picture. */
export interface TableColumn {
  /** As in the CSV: quantity and unit in one word. */
  heading: string;
  /** As people read it. */
  label: string;
  unit?: string;
  /** Its cells are words that name units, shown with their proper signs. */
  signs?: true;
}

/** The data behind a picture, as text; '' says 'does not apply'. */
export interface FigureTable {
  columns: TableColumn[];
  rows: string[][];
}

/** Where a row of the table stands in the picture, for whoever points at it: columns of equal width, side by side. */
export interface FigureReader extends Box {
  /** What a row is: 'night', 'hour', 'month', 'day'. */
  step: string;
  /** Rows to jump to: 'failed night', and which. */
  stops: { name: string; rows: number[] } | undefined;
  /** Row to begin with. */
  first: number;
  /** Parts of the plot that a mark of the row runs through; none where it runs through all of it. */
  panels: readonly Box[];
}

/** A picture for a narrow screen. It borrows marks of the wide one and stands only beside it. */
export interface Narrow {
  /** Without styles of its own. */
  svg: string;
  width: number;
  height: number;
  plot: Box;
  panels: readonly Box[];
  /** Rows of the table lie below each other. */
  turned: boolean;
}

/** A picture: SVG without styles of its own, with what it says in words and the data it was drawn from. */
export interface Figure {
  /** Name of the picture, for ids and file names: 'nights'. */
  key: string;
  title: string;
  /** What the picture shows, in a sentence or two, for whoever cannot see it. */
  summary: string;
  width: number;
  height: number;
  svg: string;
  /** Of charts made when it is first asked for: it takes as long as the marks. */
  table: FigureTable;
  reader: FigureReader | undefined;
  narrow: Narrow;
}
