import { max, mean, range } from 'd3-array';
import { columnValues } from './columnNumbers.ts';
import type { Layout, WideDays } from './DetectedFormat.ts';
import type { SplitSample } from './detectDialect.ts';

/** Columns that a day may have, and days that must show that they are one. */
const COUNTS = [144, 96, 48, 24] as const;
const FEWEST_DAYS = 10;
/** Most days of a file that are looked at. */
const MOST_DAYS = 750;
/** On average the first and the last column are this dark beside the brightest, and brighter than half of it one stretch. */
const DARK = 0.02;
const BRIGHT = 0.5;
/** Columns of a date that may stand before the night, small beside bright noons: a quality, the month, the day. */
const BEFORE_NIGHT = 3;

/**
 * Whether each row is a whole day, its hours (or parts of them) side by side: on average dark, then bright, then dark.
 *
 * in: rows of a sample, and their layout
 * out: where the day stands in a row; undefined where rows are no days
 */
export function wideDays({ rows, layout }: SplitSample): WideDays | undefined {
  if (layout.width <= Math.min(...COUNTS) || rows.length < FEWEST_DAYS) return undefined;
  const values = range(layout.width).map((column) => columnValues(rows, column, layout));
  const means = values.map((numbers) => mean(numbers) ?? Number.NaN);
  for (const first of range(1, layout.width))
    for (const count of COUNTS)
      if (
        first + count <= layout.width &&
        isDay(means.slice(first, first + count)) &&
        !values.slice(first, first + BEFORE_NIGHT).some(isCalendar)
      )
        return { first, count };
  return undefined;
}

/** Numbers of months or of days in a month, which never are nothing. */
function isCalendar(numbers: Float64Array): boolean {
  return numbers.every((value) => Number.isInteger(value) && value >= 1 && value <= 31);
}

function isDay(means: readonly number[]): boolean {
  const most = max(means) ?? 0;
  const ends = [means[0]!, means.at(-1)!];
  if (means.some(Number.isNaN) || !(most > 0) || ends.some((value) => Math.abs(value) > DARK * most))
    return false;
  const bright = means.flatMap((value, k) => (value > BRIGHT * most ? [k] : []));
  return bright.length >= means.length / 12 && bright.at(-1)! - bright[0]! === bright.length - 1;
}

/** The sample of a file whose rows are days, an hour (or part of one) a row. */
export function unrolled({ layout, rows, lines }: SplitSample, wide: WideDays): SplitSample {
  const days = rows.slice(0, MOST_DAYS);
  return {
    layout: unrolledLayout(layout, wide),
    rows: days.flatMap((cells) => hoursOf(cells, wide)),
    lines: days.flatMap((_, day) => Array.from({ length: wide.count }, () => lines[day]!)),
  };
}

/** The rows that a day comes to: what stands before its hours, the time, the value. */
export function hoursOf(cells: readonly string[], { first, count }: WideDays): string[][] {
  const before = cells.slice(0, first);
  return range(count).map((k) => {
    const minutes = (k * 24 * 60) / count;
    const [hour, minute] = [Math.floor(minutes / 60), minutes % 60].map((part) =>
      String(part).padStart(2, '0'),
    );
    return [...before, `${hour}:${minute}`, cells[first + k] ?? ''];
  });
}

/** What the rows of `hoursOf` are laid out like. */
export function unrolledLayout(layout: Layout, { first, count }: WideDays): Layout {
  const cut = (texts: readonly string[], time: string, value: string) =>
    texts.length === 0 ? [] : [...texts.slice(0, first), time, value];
  const { cellUnits } = layout;
  return {
    ...layout,
    ...(cellUnits === undefined ? {} : { cellUnits: cut(cellUnits, '', cellUnits[first]!) }),
    width: first + 2,
    headings: cut(layout.headings, 'time', `columns ${first + 1} to ${first + count}`),
    units: cut(layout.units, '', ''),
    legends: cut(layout.legends, '', ''),
  };
}
