import { range } from 'd3-array';
import { HOUR_MS, wholeYearsIn } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { solarPosition } from '../../sun/solarPosition.ts';
import { type HourlyColumns, hoursWithin } from '../WeatherRecord.ts';

/** So many hours at an end are lost to a clock, an export's last page or the first row of a file, not to a logger. */
const MOST_LOST_H = 6;
/** Beyond, a night is no night of a day. */
const LONGEST_NIGHT_H = 24;

/**
 * Columns that lack a few hours to whole years, with these as missing: at the start where that is the start of a month
 * then, in UTC or by the sun's mean hour, else at the end, where the rest of a night may lack too: many write no hours
 * without light. What fills gaps fills them, and the years stay whole.
 *
 * in: columns, NaN missing; the place
 * out: longer columns, and how many hours were put to them; the same columns where none lack, or too many
 */
export function withLostEnd(
  columns: HourlyColumns,
  { latitude_deg, longitude_deg }: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): { columns: HourlyColumns; lost_h: number } {
  const { start_ms, count } = columns;
  if (wholeYearsIn(start_ms, count) > 0) return { columns, lost_h: 0 };
  const shifts_h = [0, Math.round(longitude_deg / 15)];
  const isMonth = (ms: number) => shifts_h.some((hours) => beginsMonth(ms + hours * HOUR_MS));
  const hours = range(1, MOST_LOST_H + 1);
  const before = isMonth(start_ms)
    ? undefined
    : hours
        .filter((lost_h) => isMonth(start_ms - lost_h * HOUR_MS))
        .find((lost_h) => wholeYearsIn(start_ms - lost_h * HOUR_MS, count + lost_h) > 0);
  if (before !== undefined) return { columns: hoursWithin(columns, -before, count), lost_h: before };
  const end_ms = start_ms + count * HOUR_MS;
  const isDark = (hour: number) =>
    solarPosition(end_ms + (hour + 0.5) * HOUR_MS, latitude_deg, longitude_deg).altitude_deg < 0;
  const dark_h = range(LONGEST_NIGHT_H).findIndex((hour) => !isDark(hour));
  const lost_h =
    range(1, Math.max(MOST_LOST_H, dark_h) + 1).find((after) => wholeYearsIn(start_ms, count + after) > 0) ??
    0;
  return { columns: lost_h === 0 ? columns : hoursWithin(columns, 0, count + lost_h), lost_h };
}

function beginsMonth(ms: number): boolean {
  const date = new Date(ms);
  return date.getUTCDate() === 1 && date.getUTCHours() === 0;
}

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
  const { start_ms, count, ghi_W_m2 } = columns;
  const [firstYear, lastYear] = [start_ms, start_ms + count * HOUR_MS - 1].map((ms) =>
    new Date(ms).getUTCFullYear(),
  );
  const leapDays = range(firstYear!, lastYear! + 1).flatMap((year) => {
    const day_ms = Date.UTC(year, 1, 29);
    const from = Math.round((day_ms - dayShift_ms - start_ms) / HOUR_MS);
    if (new Date(day_ms).getUTCMonth() !== 1 || from < 0 || from + 24 > count) return [];
    const around = [ghi_W_m2[from - 1], ghi_W_m2[from + 24]];
    const isLeftOut =
      ghi_W_m2.subarray(from, from + 24).every(Number.isNaN) &&
      around.every((value) => !Number.isNaN(value ?? Number.NaN));
    return isLeftOut
      ? `29 February ${year} is left out of the file; the day is filled as any gap of a day, so that the year has its 8784 hours.`
      : `${year} has a 29 February: its year counts 8784 hours.`;
  });
  const seconds =
    'Leap seconds are not counted: the clock of the record has none, and an hour with one is taken as 3600 s.';
  const lost = `${lost_h === 1 ? 'An hour is' : `${lost_h} hours are`} lost at an end of the year; filled as any gap, so that the year is whole.`;
  return [
    ...leapDays,
    ...(firstYear! < 2017 && lastYear! >= 1972 ? [seconds] : []),
    ...(lost_h > 0 ? [lost] : []),
  ];
}
