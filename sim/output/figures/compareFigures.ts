import { scaleBand } from 'd3-scale';
import { MONTH_NAMES } from '../../common/time.ts';
import type { Comparison } from '../../trial/Comparison.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { comparedName, monthName, plural } from '../words.ts';
import { barGroup } from './bar.ts';
import { chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, isolated, label, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { nightsBesideChart } from './nightsBesideChart.ts';
import { skyChart } from './skyChart.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { upward, verticalAxis } from './verticalAxis.ts';

/** The pictures of a comparison. */
interface CompareFigures {
  light: Figure;
  /** Undefined where no run holds a night. */
  nights: Figure | undefined;
  skies: Figure[];
}

/**
 * The pictures of a comparison: light by month, nights (of the decisive trials) side by side, the sky from each spot, if one of
 * them has something around it.
 *
 * in: comparison; runs it was made from
 * out: pictures with the data behind them
 */
export function compareFigures(comparison: Comparison, runs: readonly RunResult[]): CompareFigures {
  const walled = comparison.spots.some(({ hasSurroundings }) => hasSurroundings);
  return {
    light: lightChart(comparison),
    nights: nightsBesideChart(comparison, runs),
    skies: comparison.spots.flatMap((spot, k) => {
      if (spot.picture === undefined || !walled) return [];
      const name = comparedName(comparison, spot.scenario, spot.spot);
      return [skyChart(`spot-${k + 1}`, name, spot.picture, comparison.southern)];
    }),
  };
}

/**
 * The same pictures as files.
 *
 * in: comparison; runs it was made from
 * out: names such as 'light.svg', with their figures
 */
export function compareFigureFiles(comparison: Comparison, runs: readonly RunResult[]): FigureFile[] {
  const { light, nights, skies } = compareFigures(comparison, runs);
  return [
    { name: 'light.svg', figure: light },
    ...(nights === undefined ? [] : [{ name: 'nights.svg', figure: nights }]),
    ...skies.map((figure, k) => ({ name: `${k + 1}-${slug(figure.title)}.svg`, figure })),
  ];
}

/** Marks of the spots in their order, told apart without colour too. */
const MARKS = ['lit', 'short', 'crossed', 'dotted', 'fill-lightDeep', 'slanted', 'fill-lightPale', 'hatched'];

/** A month of the comparison: light on the cell in each spot, and on level ground, Wh/m2 a day. */
interface LightRow {
  month: number;
  onCell: number[];
  level: number;
}

/** Light on the cell by month, the spots side by side on one axis, that on level ground as a line over each month. */
function lightChart(comparison: Comparison): Figure {
  const { spots, months, axes } = comparison;
  const names = spots.map((spot) => isolated(comparedName(comparison, spot.scenario, spot.spot)));
  const rows = months.map((month, m) => {
    const all = spots.map((spot) => spot.months[m]!);
    const level = all.map(({ ghi_Wh_m2_day }) => ghi_Wh_m2_day).find((ghi) => ghi >= 0) ?? Number.NaN;
    return { month, onCell: all.map(({ lightOnCell_Wh_m2_day }) => lightOnCell_Wh_m2_day), level };
  });
  const marks = spots.map((_, k) => MARKS[k % MARKS.length]!);
  const perDay = 'Wh/m2 a day';
  return chart<LightRow>(
    {
      key: 'light',
      id: 'compared',
      title: 'Light on the cell by month, spot by spot',
      summary: `Mean light on the cell in Wh/m2 a day for ${spots.length} ${plural(spots.length, 'spot')}, month by month, beside that on level ground with nothing around it.`,
      legend: [
        ...names.map((name, k) => ({ mark: marks[k]!, over: 'outlineSoft', words: name })),
        { mark: 'limit', line: true, words: 'level ground, nothing around it' },
      ],
      height: { plot: 230 },
      above: 26,
      below: 28,
      rows,
      columns: [
        texts('month', 'month', ({ month }) => MONTH_NAMES[month - 1]!),
        ...names.map((name, k) =>
          numbers<LightRow>(`light_on_cell_${k + 1}_Wh_m2_day`, name, perDay, 0, ({ onCell }) => onCell[k]!),
        ),
        numbers('ghi_Wh_m2_day', 'level ground', perDay, 0, ({ level }) => level),
      ],
      reader: { step: 'month', first: Math.max(0, months.indexOf(comparison.southern ? 6 : 12)) },
    },
    (plot) => lightMarks(rows, marks, axes.light_Wh_m2_day, plot),
  );
}

function lightMarks(
  rows: readonly LightRow[],
  marks: readonly string[],
  most_Wh_m2_day: number,
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const up = upward(plot, 0, Math.max(most_Wh_m2_day, 1)).nice(4);
  const across = scaleBand(
    rows.map(({ month }) => month),
    [plot.x, plot.x + plot.width],
  )
    .paddingInner(0.2)
    .paddingOuter(0.1);
  const wide = across.bandwidth();
  const group = ({ month, onCell, level }: LightRow) => {
    const x = across(month) ?? 0;
    const over = () => `M${(x - 3).toFixed(1)} ${up(level).toFixed(1)}h${(wide + 6).toFixed(1)}`;
    const bars = onCell.map((value, k) => ({ mark: marks[k]!, value }));
    return [...barGroup(bars, x, wide, 0.05, up), Number.isNaN(level) ? '' : path('limit', over())];
  };
  const names = rows.map(({ month }) =>
    label((across(month) ?? 0) + wide / 2, plot.y + plot.height + 17, monthName(month), 'axis middle'),
  );
  const heading = label(plot.x, plot.y - 10, 'Light on the cell, Wh/m2 a day', 'strong');
  const axis = verticalAxis(up, plot, 4);
  return {
    panels: [{ box: plot, marks: () => [axis.lines, ...rows.flatMap(group)] }],
    own: [heading, axis.words, ...names],
  };
}
