import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { HourlyColumns } from '../WeatherRecord.ts';
import type { SunLight } from './SunLight.ts';
import type { NotMeasured } from './weatherView.ts';

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

/**
 * Pictures of the years of a record, day by hour, as numbers, in W/m2.
 *
 * in: columns, NaN missing; light, over the same hours; notMeasured, hours filled here; columnDays (5) and rowHours (2)
 * out: a picture for every calendar year the record holds a day of
 */
export function yearPicture(
  columns: Pick<HourlyColumns, 'start_ms' | 'count' | 'ghi_W_m2'>,
  light: Pick<SunLight, 'solarShift_ms'>,
  notMeasured: Pick<NotMeasured, 'filled'> = {},
  columnDays = 5,
  rowHours = 2,
): YearPicture[] {
  const pictures: YearPicture[] = [];
  for (let i = 0; i < columns.count; ) {
    const first_ms = columns.start_ms + light.solarShift_ms + i * HOUR_MS;
    const year = new Date(first_ms + HOUR_MS / 2).getUTCFullYear();
    const to = Math.min(
      columns.count,
      Math.ceil((Date.UTC(year + 1, 0, 1) - HOUR_MS / 2 - first_ms) / HOUR_MS) + i,
    );
    if (to - i >= 24)
      pictures.push(pictureOf(columns, light, notMeasured, year, { from: i, to, columnDays, rowHours }));
    i = to;
  }
  return pictures;
}

function pictureOf(
  columns: Pick<HourlyColumns, 'start_ms' | 'ghi_W_m2'>,
  light: Pick<SunLight, 'solarShift_ms'>,
  notMeasured: Pick<NotMeasured, 'filled'>,
  year: number,
  { from, to, columnDays, rowHours }: { from: number; to: number; columnDays: number; rowHours: number },
): YearPicture {
  const start_ms = Date.UTC(year, 0, 1);
  const days = (Date.UTC(year + 1, 0, 1) - start_ms) / DAY_MS;
  const width = Math.ceil(days / columnDays);
  const height = 24 / rowHours;
  const grid = () => Array.from({ length: height }, () => new Array<number>(width).fill(0));
  const sum = grid();
  const present = grid();
  const filled = grid();
  for (let i = from; i < to; i++) {
    // The middle of the hour says where it belongs.
    const at_ms = columns.start_ms + light.solarShift_ms + (i + 0.5) * HOUR_MS - start_ms;
    const column = Math.floor(at_ms / DAY_MS / columnDays);
    const row = Math.floor((at_ms % DAY_MS) / HOUR_MS / rowHours);
    const value = columns.ghi_W_m2[i]!;
    filled[row]![column]! += notMeasured.filled?.[i] ?? 0;
    if (Number.isNaN(value)) continue;
    sum[row]![column]! += value;
    present[row]![column]!++;
  }
  const hoursOf = (column: number) => Math.min(columnDays, days - column * columnDays) * rowHours;
  return {
    year,
    columnDays,
    rowHours,
    ghi_W_m2: sum.map((cells, row) =>
      cells.map((cell, column) => (present[row]![column] === 0 ? null : cell / present[row]![column]!)),
    ),
    // A shift by a part of an hour lets a cell hold an hour more or less.
    missingShare: present.map((cells) =>
      cells.map((cell, column) => Math.max(0, 1 - cell / hoursOf(column))),
    ),
    filledShare: filled.map((cells) => cells.map((cell, column) => Math.min(1, cell / hoursOf(column)))),
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
