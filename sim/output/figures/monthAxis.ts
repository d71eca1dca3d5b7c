import { type ScaleBand, type ScaleLinear, scaleBand } from 'd3-scale';
import { monthName } from '../words.ts';
import { type Box, coordinate, label, path } from './element.ts';
import { LETTER_STRONG } from './legend.ts';

/** Where a month begins in a row of dates. */
interface MonthTick {
  /** Index of its first date. */
  index: number;
  /** Number of its dates in the row. */
  length: number;
  /** 'Dec'. */
  name: string;
  year: string;
  /** True where the year is not that of the month before, or begins again (a year joined to itself). */
  newYear: boolean;
}

/**
 * The months of a row of civil dates, for an axis.
 *
 * in: dates, 'YYYY-MM-DD' or 'YYYY-MM', in the order of the axis
 * out: a tick for every run of dates of one month
 */
export function monthTicks(dates: readonly string[]): MonthTick[] {
  const ticks: MonthTick[] = [];
  dates.forEach((date, index) => {
    const month = date.slice(0, 7);
    const last = ticks[ticks.length - 1];
    if (last !== undefined && dates[index - 1]!.slice(0, 7) === month) last.length++;
    else {
      const year = month.slice(0, 4);
      const newYear = last === undefined || last.year !== year || date < dates[index - 1]!;
      ticks.push({ index, length: 1, name: monthName(Number(month.slice(5))), year, newYear });
    }
  });
  return ticks;
}

/** A month needs so much room for its name. */
export const NAME_WIDTH = 24;
/** The number of a day needs so much, a month with its year so much. */
const DAY_WIDTH = 22;
const DATE_WIDTH = 60;
/** A record of so many days at most has its days named. */
const MOST_DAYS = 62;

type Across = (index: number) => number;

/**
 * The axis of a row of dates: a hairline where a month begins, its name below, the year where it changes.
 *
 * in: dates, in the order of the axis; across, index of a date to x; plot; lineClass, of the hairlines; years, whether they
 *   are named
 * out: markup: lines that lie under the data, and words
 */
export function monthAxis(
  dates: readonly string[],
  across: ScaleLinear<number, number>,
  plot: Box,
  lineClass = 'grid',
  years = true,
): { lines: string; words: string } {
  const ticks = monthTicks(dates);
  const bottom = plot.y + plot.height;
  const begins = ticks.filter(({ index }) => index > 0);
  const downTo = (tick: MonthTick, end: number) => `M${coordinate(across(tick.index))} ${plot.y}V${end}`;
  const words =
    dates.length <= MOST_DAYS
      ? dayNames(dates, ticks, across, bottom)
      : monthNames(ticks, across, bottom, years ? plot.x + plot.width : undefined);
  // Between the names of months it stands aside.
  const seams = begins
    .filter(({ newYear }) => newYear && years)
    .map((tick) =>
      path('seam', `${downTo(tick, bottom + 4)}M${coordinate(across(tick.index))} ${bottom + 22}v14`),
    );
  return {
    lines: path(lineClass, begins.map((tick) => downTo(tick, bottom)).join('')),
    words: words + seams.join(''),
  };
}

/** right: where names of years end; undefined where years have none. */
function monthNames(
  ticks: readonly MonthTick[],
  across: Across,
  bottom: number,
  right: number | undefined,
): string {
  const words = ticks.map(({ index, length, name, newYear }, k) => {
    const room = across(index + length) - across(index);
    const month =
      room < NAME_WIDTH ? '' : label(across(index + length / 2), bottom + 17, name, 'axis middle');
    if (!newYear || right === undefined) return month;
    const x = across(index) + 3;
    return month + label(x, bottom + 33, yearWords(ticks, k, right - x), 'strong');
  });
  return words.join('');
}

/** In a short record the days have names of their own. */
function dayNames(
  dates: readonly string[],
  ticks: readonly MonthTick[],
  across: Across,
  bottom: number,
): string {
  const every = Math.ceil(DAY_WIDTH / (across(1) - across(0)));
  const days = dates.map((date, k) =>
    k % every === 0 ? label(across(k + 0.5), bottom + 17, String(Number(date.slice(8))), 'axis middle') : '',
  );
  const months = ticks
    .filter(({ length }) => ticks.length === 1 || across(length) - across(0) >= DATE_WIDTH)
    .map(({ index, name, year }) => label(across(index) + 2, bottom + 33, `${name} ${year}`, 'strong'));
  return [...days, ...months].join('');
}

/** The year; of a year joined to itself, that it is the same again, in as many words as there is room for. */
function yearWords(ticks: readonly MonthTick[], k: number, room: number): string {
  const { year } = ticks[k]!;
  if (ticks[k - 1]?.year !== year) return year;
  const words = [`${year}: the same year repeated`, `${year} again`];
  return words.find((some) => some.length * LETTER_STRONG <= room) ?? year;
}

/**
 * Months as bands beside each other, for bars.
 *
 * in: months, 'YYYY-MM', in the order of the axis; plot; gaps between bands and at the ends, as shares of a band's step
 * out: month to x; names below the plot, the year under them where it changes
 */
export function monthBands(
  months: readonly string[],
  plot: Box,
  gap: number,
  endGap: number,
): { across: ScaleBand<string>; names: string } {
  const across = scaleBand(months, [plot.x, plot.x + plot.width])
    .paddingInner(gap)
    .paddingOuter(endGap);
  const names = monthTicks(months).map(({ index, name, year, newYear }) => {
    const middle = (across(months[index]!) ?? 0) + across.bandwidth() / 2;
    const bottom = plot.y + plot.height;
    return (
      label(middle, bottom + 17, name, 'axis middle') +
      (newYear ? label(middle, bottom + 33, year, 'strong middle') : '')
    );
  });
  return { across, names: names.join('') };
}
