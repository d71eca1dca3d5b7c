import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { HourlyColumns } from '../WeatherRecord.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

/** A calendar year as a picture: days across, hours down, by local mean solar time, so that noon is one line. */
export interface YearPicture {
  year: number;
  /** Days a column covers, from 1 January on. */
  columnDays: number;
  /** Hours a row covers, from midnight down; noon lies between the two middle rows. */
  rowHours: number;
  /** [row][column]: mean global irradiance of the hours with a value; null where there is none. */
  ghi_W_m2: (number | null)[][];
  /** [row][column]: share of the hours that are missing or not in the record, gaps filled upstream among them. */
  missingShare: number[][];
  /** [row][column]: share of the hours that were filled here. */
  filledShare: number[][];
}

const COLUMN_DAYS = 5;
const ROW_HOURS = 2;

/**
 * Pictures of the years of a record, day by hour, as numbers, in W/m2.
 *
 * in: columns, NaN missing, with the hours filled here, if any; light, over the same hours
 * out: a picture for every calendar year the record holds a day of
 */
export function yearPicture(
  columns: Pick<HourlyColumns, 'start_ms' | 'count' | 'ghi_W_m2'> & { filled?: Uint8Array },
  light: Pick<SunLight, 'solarShift_ms'>,
): YearPicture[] {
  // The middle of the hour says where it belongs.
  const middle_ms = (i: number): number => columns.start_ms + light.solarShift_ms + (i + 0.5) * HOUR_MS;
  const pictures: YearPicture[] = [];
  for (let from = 0, to = 0; from < columns.count; from = to) {
    const year = new Date(middle_ms(from)).getUTCFullYear();
    to = from + Math.ceil((Date.UTC(year + 1, 0, 1) - middle_ms(from)) / HOUR_MS);
    const part = { from, to: Math.min(columns.count, to) };
    if (part.to - from >= 24) pictures.push(pictureOf(year, part, columns, middle_ms));
  }
  return pictures;
}

function pictureOf(
  year: number,
  { from, to }: Stretch,
  { ghi_W_m2, filled }: { ghi_W_m2: Float64Array; filled?: Uint8Array },
  middle_ms: (i: number) => number,
): YearPicture {
  const start_ms = Date.UTC(year, 0, 1);
  const days = (Date.UTC(year + 1, 0, 1) - start_ms) / DAY_MS;
  const cells = Array.from({ length: 24 / ROW_HOURS }, () =>
    Array.from({ length: Math.ceil(days / COLUMN_DAYS) }, () => ({ ghi: 0, present: 0, filled: 0 })),
  );
  for (let i = from; i < to; i++) {
    const at_ms = middle_ms(i) - start_ms;
    const row = cells[Math.floor((at_ms % DAY_MS) / HOUR_MS / ROW_HOURS)]!;
    const cell = row[Math.floor(at_ms / DAY_MS / COLUMN_DAYS)]!;
    cell.filled += filled?.[i] ?? 0;
    if (Number.isNaN(ghi_W_m2[i]!)) continue;
    cell.ghi += ghi_W_m2[i]!;
    cell.present++;
  }
  const each = <T>(value: (cell: { ghi: number; present: number; filled: number }, hours: number) => T) =>
    cells.map((row) =>
      row.map((cell, column) => value(cell, Math.min(COLUMN_DAYS, days - column * COLUMN_DAYS) * ROW_HOURS)),
    );
  return {
    year,
    columnDays: COLUMN_DAYS,
    rowHours: ROW_HOURS,
    ghi_W_m2: each(({ ghi, present }) => (present === 0 ? null : ghi / present)),
    // A shift by a part of an hour lets a cell hold an hour more or less.
    missingShare: each(({ present }, hours) => Math.max(0, 1 - present / hours)),
    filledShare: each((cell, hours) => Math.min(1, cell.filled / hours)),
  };
}

/** Glyphs from dark to bright, each for light below its bound; told apart by their ink, without colour. */
const SHADES: readonly (readonly [below_W_m2: number, glyph: string])[] = [
  [3, ' '],
  [30, '.'],
  [100, ':'],
  [250, 'o'],
  [500, 'O'],
  [Number.POSITIVE_INFINITY, '#'],
];
const MISSING = '?';
const FILLED = '~';
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * A year's picture as lines of text, at most 100 characters wide, the line of noon across it.
 *
 * in: picture, with columns of 4 days or more
 * out: lines: months, hours from midnight to midnight (local mean solar time), key
 */
export function yearPictureText(picture: YearPicture): string[] {
  const width = picture.missingShare[0]!.length;
  const lines = [`${picture.year}  ${monthLine(picture, width)}`];
  picture.missingShare.forEach((cells, row) => {
    const hour = row * picture.rowHours;
    if (hour === 12) lines.push(`noon +${'-'.repeat(width)}+`);
    const label = String(hour).padStart(4);
    lines.push(`${label} |${cells.map((_, column) => glyphOf(picture, row, column)).join('')}|`);
  });
  const shades = SHADES.map(([below, glyph], i) =>
    below === Number.POSITIVE_INFINITY
      ? `${glyph} ${SHADES[i - 1]![0]} and more`
      : `${glyph === ' ' ? 'blank' : glyph} below ${below}`,
  );
  lines.push(
    `     W/m2: ${shades.join(', ')}`,
    `     ${MISSING} missing, ${FILLED} filled; a column is ${picture.columnDays} days, hours by the sun's mean time`,
  );
  return lines;
}

/** Half a cell missing or filled is shown as such. */
function glyphOf(picture: YearPicture, row: number, column: number): string {
  if (picture.missingShare[row]![column]! >= 0.5) return MISSING;
  if (picture.filledShare[row]![column]! >= 0.5) return FILLED;
  const value = picture.ghi_W_m2[row]![column] ?? Number.NaN;
  return SHADES.find(([below]) => value < below)?.[1] ?? MISSING;
}

/** Names of the months over the columns they begin in. */
function monthLine(picture: YearPicture, width: number): string {
  const line = new Array<string>(width).fill(' ');
  MONTHS.forEach((name, month) => {
    const day = (Date.UTC(picture.year, month, 1) - Date.UTC(picture.year, 0, 1)) / DAY_MS;
    const column = Math.floor(day / picture.columnDays);
    for (let c = 0; c < name.length && column + c < width; c++) line[column + c] = name[c]!;
  });
  return line.join('').trimEnd();
}
