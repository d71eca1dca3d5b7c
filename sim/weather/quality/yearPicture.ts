import { DAY_MS, HOUR_MS } from '../../common/time.ts';
import type { HourlyColumns } from './HourlyColumns.ts';
import type { NotMeasured } from './monthlyTable.ts';
import type { SunLight } from './SunLight.ts';

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
