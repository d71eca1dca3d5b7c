/** Where a month begins in a row of dates. */
export interface MonthTick {
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

const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * The months of a row of civil dates, for an axis.
 *
 * in: dates, 'YYYY-MM-DD', in the order of the axis
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
      const name = NAMES[Number(month.slice(5)) - 1]!;
      ticks.push({
        index,
        length: 1,
        name,
        year,
        newYear: last === undefined || last.year !== year || date < dates[index - 1]!,
      });
    }
  });
  return ticks;
}
