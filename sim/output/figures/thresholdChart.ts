import { leastIndex, max } from 'd3-array';
import { scaleBand, scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { ThresholdMonth } from '../../statistics/thresholdMonths.ts';
import { element } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { monthTicks } from './monthTicks.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const HEIGHT = 300;
const LEFT = 52;

type MonthRow = ThresholdMonth & { night: string };

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
  months: readonly MonthRow[],
  level_lm: number,
  summary: string,
): Figure {
  const facts = {
    key: 'brightness',
    id,
    title: `How bright "lit" is: ${name}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const bars = [
    {
      mark: 'lit',
      words: `at or above the promised ${level_lm} lm`,
      of: (month: MonthRow) => month.abovePromised_h,
    },
    {
      mark: 'fill-lightDeep',
      words: 'above half of the light at switching on',
      of: (month: MonthRow) => month.aboveHalf_h,
    },
    { mark: 'fill-lightPale', words: 'above a fifth of it', of: (month: MonthRow) => month.aboveFifth_h },
  ];
  const key = legend(
    [
      ...bars.map(({ mark, words }) => ({ mark, words, over: 'outlineSoft' })),
      { mark: 'limit', line: true, words: 'promised' },
    ],
    LEFT,
    4,
    WIDTH - 12,
  );
  const plot: Plot = {
    x: LEFT,
    y: key.height + 24,
    width: WIDTH - LEFT - 12,
    height: HEIGHT - key.height - 24 - 28,
  };
  const top = max(months, (month) => Math.max(month.promised_h, ...bars.map(({ of }) => of(month)))) ?? 1;
  const up = scaleLinear([0, Math.max(top, 1)], [plot.y + plot.height, plot.y]).nice(4);
  const across = scaleBand(
    months.map(({ month }) => month),
    [plot.x, plot.x + plot.width],
  )
    .paddingInner(0.25)
    .paddingOuter(0.12);
  const within = scaleBand(
    bars.map(({ mark }) => mark),
    [0, across.bandwidth()],
  ).paddingInner(0.06);
  const marks = months.flatMap((month) => {
    const x = across(month.month) ?? 0;
    const promised = up(month.promised_h).toFixed(1);
    return [
      ...bars.map(({ mark, of }) =>
        element('rect', {
          class: `${mark} edged`,
          x: x + (within(mark) ?? 0),
          y: up(of(month)),
          width: within.bandwidth(),
          height: up(0) - up(of(month)),
        }),
      ),
      element('path', { class: 'limit', d: `M${x - 3} ${promised}h${(across.bandwidth() + 6).toFixed(1)}` }),
    ];
  });
  const names = monthTicks(months.map(({ night }) => night)).map((tick) =>
    label(
      (across(months[tick.index]!.month) ?? 0) + across.bandwidth() / 2,
      plot.y + plot.height + 17,
      tick.newYear ? `${tick.name} ${tick.year}` : tick.name,
      { class: 'axis middle' },
    ),
  );
  return {
    ...facts,
    svg: figureSvg(facts, [
      key.markup,
      label(plot.x, plot.y - 8, 'Hours a night, mean of the month', { class: 'strong' }),
      verticalAxis(up, plot, '', 4),
      ...marks,
      ...names,
    ]),
    table: {
      columns: [
        { heading: 'month', label: 'month' },
        { heading: 'nights', label: 'nights' },
        { heading: 'promised_h_night', label: 'promised', unit: 'h a night' },
        { heading: 'above_promised_h_night', label: `above ${level_lm} lm`, unit: 'h a night' },
        { heading: 'above_half_h_night', label: 'above half', unit: 'h a night' },
        { heading: 'above_fifth_h_night', label: 'above a fifth', unit: 'h a night' },
      ],
      rows: months.map((month) => [
        month.month,
        String(month.nights),
        ...[month.promised_h, month.abovePromised_h, month.aboveHalf_h, month.aboveFifth_h].map((hours) =>
          fixed(hours, 2),
        ),
      ]),
    },
    reader: {
      step: 'month',
      ...plot,
      first: Math.max(0, leastIndex(months, (a, b) => a.abovePromised_h - b.abovePromised_h) ?? 0),
    },
  };
}
