import { max, minIndex } from 'd3-array';
import { area, line } from 'd3-shape';
import type { NightRow } from '../../night/nightLedger.ts';
import type { CapacitorDay } from '../../statistics/civilHours.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthAxis } from './monthAxis.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** Voltages that bound the capacitor's. */
export interface CapacitorLimits {
  cutoff_V: number;
  rated_V: number;
}

type Row = CapacitorDay & { reachable_V: number };

const COLUMNS: ChartColumn<Row>[] = [
  texts('date', 'date', (row) => row.night),
  numbers('capacitor_lowest_V', 'lowest', 'V', 3, (row) => row.lowest_V),
  numbers('capacitor_highest_V', 'highest', 'V', 3, (row) => row.highest_V),
  numbers('highest_reachable_V', 'highest the cell can charge to', 'V', 3, (row) => row.reachable_V),
];

/**
 * The capacitor's voltage through the year: a band a day from its lowest to its highest, with the day's highest
 * reachable voltage, the cut-off and the rated voltage.
 *
 * in: id; name; days, in the order of the season; nights, the ledger's rows by their date; limits; summary
 * out: the picture; classes: band, reachable, limit
 */
export function capacitorChart(
  id: string,
  name: string,
  days: readonly CapacitorDay[],
  nights: ReadonlyMap<string, NightRow>,
  limits: CapacitorLimits,
  summary: string,
): Figure {
  const rows = days.map((day) => ({
    ...day,
    reachable_V: nights.get(day.night)?.highestReachable_V ?? Number.NaN,
  }));
  return chart(
    {
      key: 'capacitor',
      id,
      title: `The capacitor through the year: ${name}`,
      summary,
      legend: [
        { mark: 'band', words: 'capacitor, lowest to highest of the day' },
        { mark: 'reachable', line: true, words: 'highest voltage the cell can charge to that day' },
        {
          mark: 'limit',
          line: true,
          words: `cut-off ${limits.cutoff_V} V and, above it, rated ${limits.rated_V} V`,
        },
      ],
      height: { whole: 330 },
      above: 14,
      below: 42,
      rows,
      columns: COLUMNS,
      reader: { step: 'day', first: minIndex(rows, (row) => row.lowest_V) },
    },
    (plot) => voltages(rows, limits, plot),
  );
}

function voltages(
  rows: readonly Row[],
  limits: CapacitorLimits,
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const highest_V = max(rows.flatMap((row) => [row.highest_V, row.reachable_V]).filter(Number.isFinite)) ?? 0;
  const up = upward(plot, 0, Math.max(highest_V, limits.rated_V) * 1.04);
  const across = rightward(plot, rows.length);
  const axis = monthAxis(
    rows.map((row) => row.night),
    across,
    plot,
  );
  const middle = (_: Row, index: number) => across(index + 0.5);
  const band = area<Row>(
    middle,
    (row) => up(row.lowest_V),
    (row) => up(row.highest_V),
  ).digits(1);
  const reachable = line<Row>(middle, (row) => up(row.reachable_V))
    .defined((row) => row.reachable_V > 0)
    .digits(1);
  const limit = (value: number) => path('limit', `M${plot.x} ${up(value).toFixed(1)}H${plot.x + plot.width}`);
  const volts = verticalAxis(up, plot, 5, 'V');
  const marks = () => [
    volts.lines,
    axis.lines,
    path('band', band(rows)),
    path('reachable', reachable(rows)),
    limit(limits.cutoff_V),
    limit(limits.rated_V),
  ];
  return { panels: [{ box: plot, marks }], own: [volts.words, axis.words] };
}
