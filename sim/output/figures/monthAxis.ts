import type { ScaleLinear } from 'd3-scale';
import { element, shortNumber } from './element.ts';
import { label } from './label.ts';
import { type MonthTick, monthTicks } from './monthTicks.ts';

/** The box that a picture's data lies in. */
export interface Plot {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A month needs so much room for its name. */
const NAME_WIDTH = 26;
/** A record of so many days at most has its days named. */
const MOST_DAYS = 62;

type Across = (index: number) => number;

/**
 * The axis of a row of dates: a hairline where a month begins, its name below, the year where it changes.
 *
 * in: dates, in the order of the axis; across, index of a date to x; plot; lineClass, of the hairlines
 * out: markup: lines that lie under the data, and words
 */
export function monthAxis(
  dates: readonly string[],
  across: ScaleLinear<number, number>,
  plot: Plot,
  lineClass = 'grid',
): { lines: string; words: string } {
  const ticks = monthTicks(dates);
  const bottom = plot.y + plot.height;
  const lines = ticks
    .filter((tick) => tick.index > 0)
    .map((tick) => `M${shortNumber(across(tick.index))} ${plot.y}V${bottom}`);
  const seams = ticks.filter((tick) => tick.index > 0 && tick.newYear);
  const words =
    dates.length <= MOST_DAYS ? dayNames(dates, ticks, across, bottom) : monthNames(ticks, across, bottom);
  return {
    lines: element('path', { class: lineClass, d: lines.join('') || undefined }),
    words:
      words +
      seams
        .map((tick) =>
          element('path', {
            class: 'seam',
            d: `M${shortNumber(across(tick.index))} ${plot.y}V${bottom + 36}`,
          }),
        )
        .join(''),
  };
}

function monthNames(ticks: readonly MonthTick[], across: Across, bottom: number): string {
  const words = ticks.map((tick, k) => {
    const x = across(tick.index + tick.length / 2);
    const room = across(tick.index + tick.length) - across(tick.index);
    const name = room < NAME_WIDTH ? '' : label(x, bottom + 17, tick.name, { class: 'axis middle' });
    const year = tick.newYear
      ? label(across(tick.index) + 2, bottom + 33, yearWords(ticks, k), { class: 'strong' })
      : '';
    return name + year;
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
  const every = Math.ceil(dates.length / 21);
  const days = dates.map((date, k) =>
    k % every === 0
      ? label(across(k + 0.5), bottom + 17, String(Number(date.slice(8))), { class: 'axis middle' })
      : '',
  );
  const months = ticks.map((tick) =>
    label(across(tick.index) + 2, bottom + 33, `${tick.name} ${tick.year}`, { class: 'strong' }),
  );
  return [...days, ...months].join('');
}

/** The year; of a year joined to itself, that it begins again. */
function yearWords(ticks: readonly MonthTick[], k: number): string {
  const { year } = ticks[k]!;
  return ticks[k - 1]?.year === year ? `${year} again (one year, joined to itself)` : year;
}
