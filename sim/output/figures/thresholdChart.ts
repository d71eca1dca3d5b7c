import { max, minIndex } from 'd3-array';
import type { ThresholdMonth } from '../../statistics/TrialStatistics.ts';
import { publishedName } from '../json.ts';
import { barGroup } from './bar.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, label, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthBands } from './monthAxis.ts';
import { upward, verticalAxis } from './verticalAxis.ts';

/** A level of light: how it is drawn and called, also in few words, and hours a night at or above it. */
interface Level {
  mark: string;
  words: string;
  tight: string;
  key: 'abovePromised_h' | 'aboveHalf_h' | 'aboveFifth_h';
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
  const promised = `at or above the promised ${level_lm} lm`;
  const half = 'above half of the light at switching on';
  const levels: Level[] = [
    { key: 'abovePromised_h', mark: 'lit', words: promised, tight: `above ${level_lm} lm` },
    { key: 'aboveHalf_h', mark: 'fill-lightDeep', words: half, tight: 'above half' },
    { key: 'aboveFifth_h', mark: 'fill-lightPale', words: 'above a fifth of it', tight: 'above a fifth' },
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
      height: { whole: 314 },
      above: 24,
      below: 42,
      rows: months,
      columns: columns(levels),
      reader: { step: 'month', first: minIndex(months, (month) => month.abovePromised_h) },
    },
    (plot) => bars(months, levels, plot),
  );
}

function columns(levels: readonly Level[]): ChartColumn<ThresholdMonth>[] {
  const hours = (key: Level['key'] | 'promised_h', label: string) =>
    numbers<ThresholdMonth>(`${publishedName(key)}_night`, label, 'h a night', 2, (month) => month[key]);
  return [
    texts('month', 'month', ({ month }) => month),
    texts('nights', 'nights', ({ nights }) => String(nights)),
    hours('promised_h', 'promised'),
    ...levels.map(({ key, tight }) => hours(key, tight)),
  ];
}

function bars(
  months: readonly ThresholdMonth[],
  levels: readonly Level[],
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const top = max(months, (month) => Math.max(month.promised_h, ...levels.map(({ key }) => month[key]))) ?? 1;
  const up = upward(plot, 0, Math.max(top, 1)).nice(4);
  const { across, names } = monthBands(
    months.map(({ month }) => month),
    plot,
    0.25,
    0.12,
  );
  const wide = across.bandwidth();
  const hours = verticalAxis(up, plot, 4);
  const group = (month: ThresholdMonth) => {
    const x = across(month.month) ?? 0;
    const values = levels.map(({ mark, key }) => ({ mark, value: month[key] }));
    return [
      ...barGroup(values, x, wide, 0.06, up),
      path('limit', `M${x - 3} ${up(month.promised_h).toFixed(1)}h${(wide + 6).toFixed(1)}`),
    ];
  };
  return {
    panels: [{ box: plot, marks: () => [hours.lines, ...months.flatMap(group)] }],
    own: [label(plot.x, plot.y - 10, 'Hours a night, mean of the month', 'strong'), hours.words, names],
  };
}
