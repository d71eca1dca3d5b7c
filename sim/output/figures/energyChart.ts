import { max, minIndex } from 'd3-array';
import { stack } from 'd3-shape';
import type { EnergyMonth, EnergyStatistics } from '../../statistics/TrialStatistics.ts';
import { publishedName } from '../json.ts';
import { type ChartColumn, chart, legend, numbers, texts, upward, verticalAxis } from './chart.ts';
import { type Box, label, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthBands } from './monthAxis.ts';

const J_PER_WH = 3600;

/** A part of the energy ledger: its name there, and a mark told apart without colour. */
interface LedgerPart {
  key: keyof EnergyStatistics;
  words: string;
  mark: string;
}

/** What the best-point energy of the cell comes to. */
const BEST_POINT_PARTS: readonly LedgerPart[] = [
  { key: 'cell_J', words: 'given by the cell', mark: 'lit' },
  {
    key: 'unharvestedCapacitorLow_J',

    words: 'not used: capacitor too low',
    mark: 'dotted',
  },
  {
    key: 'unharvestedCapacitorHigh_J',

    words: 'not used: capacitor already full',
    mark: 'slanted',
  },
];

/** What becomes of the energy the cell gives, beside the change of what is stored. */
const CELL_PARTS: readonly LedgerPart[] = [
  { key: 'led_J', words: 'LED', mark: 'lit' },
  { key: 'driverLoss_J', words: 'driver', mark: 'crossed' },
  { key: 'diodeLoss_J', words: 'blocking diode', mark: 'short' },
  { key: 'leakage_J', words: 'leakage', mark: 'hatched' },
  { key: 'delayedBranchLoss_J', words: 'delayed branch', mark: 'dotted' },
  { key: 'resistanceLoss_J', words: 'resistance', mark: 'slanted' },
  { key: 'standby_J', words: 'standby', mark: 'fill-shortPale' },
  { key: 'limiter_J', words: 'limiter', mark: 'night' },
];

function column(key: keyof EnergyStatistics, label: string): ChartColumn<EnergyMonth> {
  const heading = publishedName(key).replace(/_J$/, '_Wh');
  return numbers(heading, label, 'Wh', 3, (month) => month[key] / J_PER_WH);
}

const COLUMNS: ChartColumn<EnergyMonth>[] = [
  texts('month', 'month', ({ month }) => month),
  column('cellBest_J', 'best-point energy'),
  ...[...BEST_POINT_PARTS, ...CELL_PARTS].map(({ key, words }) => column(key, words)),
  column('storedChange_J', 'change of what is stored'),
];

/**
 * Where the energy went, by month, in the names of the ledger: what the cell's best-point energy came to, and what
 * became of the part that the cell gave.
 *
 * in: id; name; months, in the order of the season; summary
 * out: the picture; a rect of a part's class for each month and part above zero
 */
export function energyChart(
  id: string,
  name: string,
  months: readonly EnergyMonth[],
  summary: string,
): Figure {
  const limiter = months.some((month) => month.limiter_J > 0);
  const parts = CELL_PARTS.filter(({ key }) => key !== 'limiter_J' || limiter);
  const best = 'What the cell could have given at its best point, Wh a month';
  const given = 'What became of the energy it gave, Wh a month (another scale)';
  return chart(
    {
      key: 'energy',
      id,
      title: `Where the energy went: ${name}`,
      summary,
      height: { whole: 536 },
      above: 52,
      below: 30,
      rows: months,
      columns: COLUMNS,
      reader: { step: 'month', first: minIndex(months, (month) => month.cellBest_J) },
    },
    (plot) => [
      ...panel(best, months, BEST_POINT_PARTS, { ...plot, height: 180 }),
      ...panel(given, months, parts, { ...plot, y: plot.y + 264, height: 190 }),
    ],
  );
}

function panel(
  words: string,
  months: readonly EnergyMonth[],
  parts: readonly LedgerPart[],
  plot: Box,
): string[] {
  const stacked = stack<unknown, EnergyMonth, LedgerPart>()
    .keys(parts)
    .value((month, part) => Math.max(month[part.key], 0) / J_PER_WH)([...months]);
  const top = max(stacked, (series) => max(series, (pair) => pair[1])) ?? 0;
  const up = upward(plot, 0, Math.max(top, 0.001)).nice(4);
  const dates = months.map(({ month }) => month);
  const { across, names } = monthBands(dates, plot, 0.22, 0.11);
  const bars = stacked.flatMap((series) =>
    series.map(([from, to], k) => {
      const height = up(from) - up(to);
      const box = { x: across(dates[k]!) ?? 0, y: up(to), width: across.bandwidth(), height };
      return height < 0.05 ? '' : rect(`${series.key.mark} edged`, box);
    }),
  );
  const key = legend(
    parts.map((part) => ({ mark: part.mark, over: 'outlineSoft', words: part.words })),
    plot.x,
    plot.y - 26,
    plot.x + plot.width,
  );
  const heading = label(plot.x, plot.y - 36, words, 'strong');
  return [heading, key.markup, verticalAxis(up, plot, 4), ...bars, names];
}
