import { max, minIndex } from 'd3-array';
import type { ThresholdMonth } from '../../statistics/TrialStatistics.ts';
import { barGroup, type ChartColumn, chart, numbers, upward, verticalAxis } from './chart.ts';
import { type Box, label, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthBands } from './monthAxis.ts';

/** A level of light: how it is drawn and called, and hours a night at or above it. */
interface Level {
  mark: string;
  words: string;
  of: (month: ThresholdMonth) => number;
}

/**
 * How bright 'lit' is: hours a night above the promised level, above half and above a fifth of the light at switching
 * on, as means of each month.
 *
 * in: id; name; months, in the order of the season; level_lm, the promised level; summary
 * out: the picture; three bars a month
 */
export function thresholdChart(
  id: string,
  name: string,
  months: readonly ThresholdMonth[],
  level_lm: number,
  summary: string,
): Figure {
  const levels: Level[] = [
    {
      mark: 'lit',
      words: `at or above the promised ${level_lm} lm`,
      of: (month) => month.abovePromised_h,
    },
    {
      mark: 'fill-lightDeep',
      words: 'above half of the light at switching on',
      of: (month) => month.aboveHalf_h,
    },
    { mark: 'fill-lightPale', words: 'above a fifth of it', of: (month) => month.aboveFifth_h },
  ];
  return chart(
    {
      key: 'brightness',
      id,
      title: `How bright "lit" is: ${name}`,
      summary,
      legend: [
        ...levels.map(({ mark, words }) => ({ mark, words, over: 'outlineSoft' })),
        { mark: 'limit', line: true, words: 'promised' },
      ],
      height: { whole: 300 },
      above: 24,
      below: 28,
      rows: months,
      columns: columns(level_lm),
      reader: { step: 'month', first: minIndex(months, (month) => month.abovePromised_h) },
    },
    (plot) => bars(months, levels, plot),
  );
}

function columns(level_lm: number): ChartColumn<ThresholdMonth>[] {
  const hours = (heading: string, words: string, of: (month: ThresholdMonth) => number) =>
    numbers(`${heading}_h_night`, words, 'h a night', 2, of);
  return [
    { heading: 'month', label: 'month', cell: ({ month }) => month },
    { heading: 'nights', label: 'nights', cell: ({ nights }) => String(nights) },
    hours('promised', 'promised', (month) => month.promised_h),
    hours('above_promised', `above ${level_lm} lm`, (month) => month.abovePromised_h),
    hours('above_half', 'above half', (month) => month.aboveHalf_h),
    hours('above_fifth', 'above a fifth', (month) => month.aboveFifth_h),
  ];
}

function bars(months: readonly ThresholdMonth[], levels: readonly Level[], plot: Box): string[] {
  const top = max(months, (month) => Math.max(month.promised_h, ...levels.map(({ of }) => of(month)))) ?? 1;
  const up = upward(plot, 0, Math.max(top, 1)).nice(4);
  const { across, names } = monthBands(
    months.map(({ month }) => month),
    plot,
    0.25,
    0.12,
  );
  const wide = across.bandwidth();
  const groups = months.flatMap((month) => {
    const x = across(month.month) ?? 0;
    const values = levels.map(({ mark, of }) => ({ mark, value: of(month) }));
    return [
      ...barGroup(values, x, wide, 0.06, up),
      path('limit', `M${x - 3} ${up(month.promised_h).toFixed(1)}h${(wide + 6).toFixed(1)}`),
    ];
  });
  return [
    label(plot.x, plot.y - 8, 'Hours a night, mean of the month', 'strong'),
    verticalAxis(up, plot, 4),
    ...groups,
    names,
  ];
}
