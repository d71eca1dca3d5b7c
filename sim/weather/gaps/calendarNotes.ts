import { HOUR_MS } from '../../common/time.ts';
import type { HourlyColumns } from '../quality/HourlyColumns.ts';

/**
 * What the calendar does to a record, in words for the report: 29 February, leap seconds, hours lost at an end of a year.
 *
 * in: columns after reading, NaN missing; dayShift_ms, what the days are ahead of UTC; lost_h, hours put to an end
 * out: sentences; none where the calendar brings nothing
 */
export function calendarNotes(
  columns: Pick<HourlyColumns, 'start_ms' | 'count' | 'ghi_W_m2'>,
  dayShift_ms: number,
  lost_h = 0,
): string[] {
  const notes: string[] = [];
  const { start_ms, count } = columns;
  const end_ms = start_ms + count * HOUR_MS;
  const firstYear = new Date(start_ms).getUTCFullYear();
  const lastYear = new Date(end_ms - 1).getUTCFullYear();
  for (let year = firstYear; year <= lastYear; year++) {
    const day_ms = Date.UTC(year, 1, 29);
    if (new Date(day_ms).getUTCMonth() !== 1) continue;
    const from = (day_ms - dayShift_ms - start_ms) / HOUR_MS;
    if (from < 0 || from + 24 > count) continue;
    const day = columns.ghi_W_m2.subarray(Math.round(from), Math.round(from) + 24);
    const around = [columns.ghi_W_m2[Math.round(from) - 1], columns.ghi_W_m2[Math.round(from) + 24]];
    const leftOut = day.every(Number.isNaN) && around.every((value) => !Number.isNaN(value ?? Number.NaN));
    notes.push(
      leftOut
        ? `29 February ${year} is left out of the file; the day is filled as any gap of a day, so that the year has its 8784 hours.`
        : `${year} has a 29 February: its year counts 8784 hours.`,
    );
  }
  if (firstYear < 2017 && lastYear >= 1972) {
    notes.push(
      'Leap seconds are not counted: the clock of the record has none, and an hour with one is taken as 3600 s.',
    );
  }
  if (lost_h > 0) {
    notes.push(
      `${lost_h === 1 ? 'An hour is' : `${lost_h} hours are`} lost at an end of the year; filled as any gap, so that the year is whole.`,
    );
  }
  return notes;
}
