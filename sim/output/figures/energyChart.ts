import { leastIndex, max } from 'd3-array';
import { scaleBand, scaleLinear } from 'd3-scale';
import { stack } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import type { EnergyMonth } from '../../statistics/energyMonths.ts';
import { element } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { BEST_POINT_PARTS, CELL_PARTS, type LedgerPart } from './ledgerParts.ts';
import { legend } from './legend.ts';
import type { Plot } from './monthAxis.ts';
import { monthTicks } from './monthTicks.ts';
import { verticalAxis } from './verticalAxis.ts';

const WIDTH = 1000;
const HEIGHT = 536;
const LEFT = 52;
const J_PER_WH = 3600;

type MonthRow = EnergyMonth & { night: string };

/**
 * Where the energy went, by month, in the names of the ledger: what the cell's best-point energy came to, and what
 * became of the part that the cell gave.
 *
 * in: id; name; months, in the order of the season; summary
 * out: the picture; a rect of a part's class for each month and part above zero
 */
export function energyChart(id: string, name: string, months: readonly MonthRow[], summary: string): Figure {
  const facts = {
    key: 'energy',
    id,
    title: `Where the energy went: ${name}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const best: Plot = { x: LEFT, y: 52, width: WIDTH - LEFT - 12, height: 180 };
  const given: Plot = { ...best, y: 316, height: 190 };
  const first = 'What the cell could have given at its best point, Wh a month';
  const second = 'What became of the energy it gave, Wh a month (another scale)';
  const limiter = months.some((month) => month.limiter_J > 0);
  const parts = CELL_PARTS.filter(({ key }) => key !== 'limiter_J' || limiter);
  const marks = [...panel(first, months, BEST_POINT_PARTS, best), ...panel(second, months, parts, given)];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'month', label: 'month' },
        { heading: 'cell_best_Wh', label: 'best-point energy', unit: 'Wh' },
        ...[...BEST_POINT_PARTS, ...CELL_PARTS].map(({ heading, words }) => ({
          heading,
          label: words,
          unit: 'Wh',
        })),
        { heading: 'stored_change_Wh', label: 'change of what is stored', unit: 'Wh' },
      ],
      rows: months.map((month) => [
        month.month,
        ...(
          [
            'cellBest_J',
            ...[...BEST_POINT_PARTS, ...CELL_PARTS].map(({ key }) => key),
            'storedChange_J',
          ] as const
        ).map((key) => fixed(month[key] / J_PER_WH, 3)),
      ]),
    },
    reader: {
      step: 'month',
      x: best.x,
      y: best.y,
      width: best.width,
      height: given.y + given.height - best.y,
      first: Math.max(0, leastIndex(months, (a, b) => a.cellBest_J - b.cellBest_J) ?? 0),
    },
  };
}

function panel(
  words: string,
  months: readonly MonthRow[],
  parts: readonly LedgerPart[],
  plot: Plot,
): string[] {
  const stacked = stack<unknown, MonthRow, LedgerPart>()
    .keys(parts)
    .value((month, part) => Math.max(month[part.key], 0) / J_PER_WH)([...months]);
  const top = max(stacked, (series) => max(series, (pair) => pair[1])) ?? 0;
  const up = scaleLinear([0, Math.max(top, 0.001)], [plot.y + plot.height, plot.y]).nice(4);
  const across = scaleBand(
    months.map(({ month }) => month),
    [plot.x, plot.x + plot.width],
  )
    .paddingInner(0.22)
    .paddingOuter(0.11);
  const bars = stacked.map((series) =>
    series
      .map((pair, k) => {
        const height = up(pair[0]) - up(pair[1]);
        if (height < 0.05) return '';
        return element('rect', {
          class: `${series.key.mark} edged`,
          x: across(months[k]!.month),
          y: up(pair[1]),
          width: across.bandwidth(),
          height,
        });
      })
      .join(''),
  );
  const key = legend(
    parts.map((part) => ({ mark: part.mark, over: 'outlineSoft', words: part.words })),
    plot.x,
    plot.y - 26,
    plot.x + plot.width,
  );
  const names = monthTicks(months.map(({ night }) => night)).map((tick) =>
    label(
      (across(months[tick.index]!.month) ?? 0) + across.bandwidth() / 2,
      plot.y + plot.height + 17,
      tick.newYear ? `${tick.name} ${tick.year}` : tick.name,
      { class: 'axis middle' },
    ),
  );
  return [
    label(plot.x, plot.y - 36, words, { class: 'strong' }),
    key.markup,
    verticalAxis(up, plot, '', 4),
    ...bars,
    ...names,
  ];
}
