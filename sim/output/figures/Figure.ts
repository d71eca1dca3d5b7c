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
interface FigureReader extends Box {
  /** What a row is: 'night', 'hour', 'month', 'day'. */
  step: string;
  /** Rows to jump to: 'failed night', and which. */
  stops: { name: string; rows: number[] } | undefined;
  /** Row to begin with. */
  first: number;
}

/** SVG without styles of its own, its size, and where its plot is. */
export interface Drawing {
  svg: string;
  width: number;
  height: number;
  plot: Box;
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
  table: FigureTable;
  reader: FigureReader | undefined;
  /** The same picture for a narrow screen. One that is turned borrows the marks of `svg` and stands only beside it. */
  narrow?: Drawing & { turned: boolean };
}
