import { DAY_MS } from '../common/time.ts';
import type { YearPicture } from '../statistics/yearPicture.ts';

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
