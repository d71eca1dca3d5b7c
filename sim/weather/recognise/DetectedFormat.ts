import type { Encoding } from '../../tables/decodeText.ts';
import type { Delimiter } from '../../tables/rowSplitter.ts';
import type { StampPart } from '../../tables/stampReader.ts';
import type { UnitName } from '../../tables/units.ts';

/** Direct irradiance as it falls on the horizontal is bhi; facing the sun it is dni. */
export type QuantityName = 'ghi' | 'dni' | 'bhi' | 'dhi' | 'air_temperature' | 'snow_depth' | 'rain' | 'wind';

/** Quantities of light, those that are chosen first first. */
const LIGHTS = ['ghi', 'dni', 'bhi', 'dhi'] as const satisfies QuantityName[];

export function isLight(quantity: QuantityName): boolean {
  return LIGHTS.some((name) => name === quantity);
}

export type StampLabel = 'start' | 'middle' | 'end';

/** Rows that are days: the hours of each, or parts of them, stand side by side from the 0-based column `first` on. */
export interface WideDays {
  first: number;
  /** Columns of a day, 24 or a multiple. */
  count: number;
}

/** How rows of one file are laid out. Lines are 1-based. */
export interface Layout {
  delimiter: Delimiter;
  decimal: '.' | ',';
  /** The other mark parts thousands. */
  thousands?: true;
  /** Line of the names, if there are any. */
  headingLine?: number;
  firstDataLine: number;
  /** Cells of a usual row. */
  width: number;
  /** Heading of each column, trimmed; '' where there is none. */
  headings: string[];
  /** Unit standing under each heading, '' where there is none. */
  units: string[];
  /** What the preamble says a column is ('Q = global radiation'), '' where nothing. */
  legends: string[];
  /** Lines above the rows, as they stand. */
  preamble: string[];
  /** How comment lines begin; undefined where there are none. */
  comment?: string;
  /** Unit that stands behind the number in every cell of a column, '' where none does; undefined where in no column. */
  cellUnits?: string[];
  /** Where each row is a day; columns and stamp are then those of its hours, a row each: the date, the time, the value. */
  wide?: WideDays;
}

/** What parts the cells, in words. */
export const DELIMITER_WORDS = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'bars',
  ' ': 'blanks',
} as const satisfies Record<Delimiter, string>;

/** How days stand in rows, in words; '' where they do not. */
export function wideWords(wide: WideDays | undefined): string {
  return wide === undefined ? '' : `, each a day, in ${wide.count} columns from column ${wide.first + 1} on`;
}

/** Where a message about a column, or about all, points to. */
export function headingPlace(layout: Layout, column = -1): { line?: number; field?: string } {
  const { headingLine, headings } = layout;
  return {
    ...(headingLine === undefined ? {} : { line: headingLine }),
    ...(headings[column] ? { field: headings[column] } : {}),
  };
}

/** How a message names a column. */
export function columnName({ headings }: Layout, column: number): string {
  return headings[column] ? `"${headings[column]}"` : `column ${column + 1}`;
}

/** What is written of a column, and where, the plainest first. */
export function columnTexts(
  { units, headings, legends, cellUnits }: Layout,
  column: number,
): { text: string; where: string }[] {
  return [
    { text: cellUnits?.[column] ?? '', where: 'cell' },
    { text: units[column] ?? '', where: 'units row' },
    { text: headings[column] ?? '', where: 'heading' },
    { text: legends[column] ?? '', where: 'legend' },
  ].filter(({ text }) => text !== '');
}

/**
 * Which zone the stamps keep, and where that is said; `stated` by the user, over any offset a stamp has itself;
 * `against`, where the file names a zone that is never as far from UTC.
 */
export type ZoneClaim = { against?: string } & (
  | { kind: 'fixed'; offset_min: number; words: string; stated?: true }
  | { kind: 'civil'; zone: string; words: string; stated?: true }
  | { kind: 'solar'; words: string; stated?: true }
  | { kind: 'each'; words: string }
  | { kind: 'unstated'; words: string }
);

/** Which instant of its interval a stamp marks; `label` is undefined where the file does not say. */
export interface LabelClaim {
  label?: StampLabel;
  words: string;
}

export interface StampReading {
  parts: StampPart[];
  zone: ZoneClaim;
  label: LabelClaim;
  /** Commonest distance of rows; 0 where they come at irregular times. */
  step_s: number;
  irregular: boolean;
  /** Newest row first. */
  descending: boolean;
  /** Months from different years, or no year at all: laid on 2001, which is no leap year. */
  typicalYear: boolean;
  /** In words, for reports. */
  style: string;
}

/** A column that was chosen for a quantity. */
export interface ColumnChoice {
  quantity: QuantityName;
  column: number;
  heading: string;
  unit: UnitName;
  /** Seconds an energy or depth is per, where its unit says ('/h'); else it is per step. */
  per_s?: number;
  /** It holds running sums; what was added from row to row is its value. */
  running?: true;
  /** Why this column, and why this unit. */
  reason: string;
  unitReason: string;
  /** Numbers that say 'missing' although they could be values. */
  codes: number[];
}

/** Something that could have been read in another way: what was taken, what came second, and why. */
export interface Doubt {
  about: string;
  taken: string;
  runnerUp: string;
  why: string;
}

export interface SiteClaim {
  latitude_deg?: number;
  longitude_deg?: number;
  elevation_m?: number;
  /** Where it is said. */
  words: string;
}

/** What was understood of a file from a sample of it. */
export interface DetectedFormat {
  encoding: Encoding;
  gzip: boolean;
  /** The rows are those of the table that JSON holds; lines are lines of it. */
  json: boolean;
  /** One for each file, in the order of their time. */
  files: { name: string; layout: Layout }[];
  stamp: StampReading;
  columns: ColumnChoice[];
  /** Of a file with several records the column that names them, and the one that is read. */
  station?: { column: number; name: string };
  site: SiteClaim;
  /** Columns of marks that are not read although some rows differ in them, in sentences. */
  marks: string[];
  doubts: Doubt[];
}
