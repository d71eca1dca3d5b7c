import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { SunLight } from '../weather/quality/SunLight.ts';
import type { Stretch } from '../weather/quality/stretchesOf.ts';
import type { HourlyColumns } from '../weather/WeatherRecord.ts';

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
