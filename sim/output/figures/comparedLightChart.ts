import { scaleBand, scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { ComparedSpot, Comparison } from '../../trial/Comparison.ts';
import { comparedName } from '../comparedName.ts';
import { MONTH_NAMES } from '../spokenDates.ts';
import { element } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { isolated } from './isolated.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const LEFT = 52;
const PLOT_HEIGHT = 230;
/** Marks of the spots in their order, told apart without colour too. */
const MARKS = ['lit', 'dark', 'crossed', 'dotted', 'fill-lightDeep', 'slanted', 'fill-lightPale', 'hatched'];

/**
 * Light on the cell by month, the spots side by side on one axis, the open sky's as a line over each month.
 *
 * in: comparison
 * out: the picture; a bar for each month and spot whose light is known
 */
export function comparedLightChart(comparison: Comparison): Figure {
  const { spots, months, axes } = comparison;
  const names = spots.map((spot) => comparedName(comparison, spot.scenario, spot.spot));
  const marks = spots.map((_, k) => MARKS[k % MARKS.length]!);
  const key = legend(
    [
      ...names.map((name, k) => ({ mark: marks[k]!, over: 'outlineSoft', words: isolated(name) })),
      { mark: 'limit', line: true, words: 'open, level ground' },
    ],
    LEFT,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: LEFT, y: key.height + 26, width: WIDTH - LEFT - 12, height: PLOT_HEIGHT };
  const height = plot.y + plot.height + 28;
  const facts = {
    key: 'light',
    id: 'compared',
    title: 'Light on the cell by month, spot by spot',
    summary: `Mean light on the cell in Wh/m2 a day for ${spots.length} spots, month by month, beside that of the open level ground.`,
    width: WIDTH,
    height,
  };
  const up = scaleLinear([0, Math.max(axes.light_Wh_m2_day, 1)], [plot.y + plot.height, plot.y]).nice(4);
  const across = scaleBand(months.map(String), [plot.x, plot.x + plot.width])
    .paddingInner(0.2)
    .paddingOuter(0.1);
  const within = scaleBand(
    names.map((_, k) => String(k)),
    [0, across.bandwidth()],
  ).paddingInner(0.05);
  const bars = months.flatMap((month, m) => {
    const x = across(String(month)) ?? 0;
    const open = spots.map((spot) => spot.months[m]!.ghi_Wh_m2_day).find((ghi) => ghi >= 0);
    return [
      ...spots.map((spot, k) =>
        bar(spot.months[m]!.lightOnCell_Wh_m2_day, marks[k]!, x + (within(String(k)) ?? 0)),
      ),
      open === undefined
        ? ''
        : element('path', {
            class: 'limit',
            d: `M${(x - 3).toFixed(1)} ${up(open).toFixed(1)}h${(across.bandwidth() + 6).toFixed(1)}`,
          }),
      label(x + across.bandwidth() / 2, plot.y + plot.height + 17, MONTH_NAMES[month - 1]!.slice(0, 3), {
        class: 'axis middle',
      }),
    ];
  });
  function bar(light: number, mark: string, x: number): string {
    if (!(light >= 0)) return '';
    return element('rect', {
      class: `${mark} edged`,
      x,
      y: up(light),
      width: within.bandwidth(),
      height: up(0) - up(light),
    });
  }
  return {
    ...facts,
    svg: figureSvg(facts, [
      key.markup,
      label(plot.x, plot.y - 9, 'Light on the cell, Wh/m2 a day', { class: 'strong' }),
      verticalAxis(up, plot, '', 4),
      ...bars,
    ]),
    table: tableOf(spots, names, months),
    reader: { step: 'month', ...plot, first: Math.max(0, months.indexOf(comparison.southern ? 6 : 12)) },
  };
}

function tableOf(
  spots: readonly ComparedSpot[],
  names: readonly string[],
  months: readonly number[],
): Figure['table'] {
  return {
    columns: [
      { heading: 'month', label: 'month' },
      ...names.map((name, k) => ({
        heading: `light_on_cell_${k + 1}_Wh_m2_day`,
        label: name,
        unit: 'Wh/m2 a day',
      })),
      { heading: 'ghi_Wh_m2_day', label: 'open', unit: 'Wh/m2 a day' },
    ],
    rows: months.map((month, m) => [
      MONTH_NAMES[month - 1]!,
      ...spots.map((spot) => fixed(spot.months[m]!.lightOnCell_Wh_m2_day, 0)),
      fixed(spots.map((spot) => spot.months[m]!.ghi_Wh_m2_day).find((ghi) => ghi >= 0) ?? Number.NaN, 0),
    ]),
  };
}
