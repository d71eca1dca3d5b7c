import { HOUR_MS, wholeYearsIn } from '../../common/time.ts';
import type { HourlyColumns } from '../quality/HourlyColumns.ts';

/** So many hours at an end are lost to a clock, an export's last page or the first row of a file, not to a logger. */
const MOST_LOST_H = 6;

/**
 * Columns that lack a few hours to whole years, with these as missing: at the start where that is the start of a month
 * then, in UTC or by the sun's mean hour, else at the end. What fills gaps fills them, and the years stay whole.
 *
 * in: columns, NaN missing; longitude_deg
 * out: longer columns, and how many hours were put to them; the same columns where none lack, or too many
 */
export function withLostEnd(
  columns: HourlyColumns,
  longitude_deg: number,
): { columns: HourlyColumns; lost_h: number } {
  const { start_ms, count } = columns;
  if (wholeYearsIn(start_ms, count) > 0) return { columns, lost_h: 0 };
  const shifts_h = [0, Math.round(longitude_deg / 15)];
  const isMonth = (ms: number) => shifts_h.some((hours) => beginsMonth(ms + hours * HOUR_MS));
  for (let lost_h = 1; lost_h <= MOST_LOST_H && !isMonth(start_ms); lost_h++) {
    const earlier_ms = start_ms - lost_h * HOUR_MS;
    if (isMonth(earlier_ms) && wholeYearsIn(earlier_ms, count + lost_h) > 0)
      return { columns: padded(columns, lost_h, 0), lost_h };
  }
  for (let lost_h = 1; lost_h <= MOST_LOST_H; lost_h++) {
    if (wholeYearsIn(start_ms, count + lost_h) > 0) return { columns: padded(columns, 0, lost_h), lost_h };
  }
  return { columns, lost_h: 0 };
}

function beginsMonth(ms: number): boolean {
  const date = new Date(ms);
  return date.getUTCDate() === 1 && date.getUTCHours() === 0;
}

function padded(columns: HourlyColumns, before: number, after: number): HourlyColumns {
  const made: HourlyColumns = {
    ...columns,
    start_ms: columns.start_ms - before * HOUR_MS,
    count: columns.count + before + after,
  };
  for (const [name, values] of Object.entries(columns)) {
    if (!(values instanceof Float64Array)) continue;
    const longer = new Float64Array(made.count).fill(Number.NaN);
    longer.set(values, before);
    Object.assign(made, { [name]: longer });
  }
  return made;
}
