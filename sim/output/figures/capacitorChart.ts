import { leastIndex, max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import type { NightRow } from '../../night/NightRow.ts';
import type { CapacitorDay } from '../../statistics/capacitorDays.ts';
import { element } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import { monthAxis, type Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

/** Voltages that bound the capacitor's. */
export interface CapacitorLimits {
  cutoff_V: number;
  rated_V: number;
}

const WIDTH = 1000;
const HEIGHT = 330;

/**
 * The capacitor's voltage through the year: a band a day from its lowest to its highest, with the day's highest reachable voltage,
 * the cut-off and the rated voltage.
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
  const facts = {
    key: 'capacitor',
    id,
    title: `The capacitor through the year: ${name}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const key = legend(
    [
      { mark: 'band', words: 'capacitor, lowest to highest of the day' },
      { mark: 'reachable', line: true, words: 'highest reachable voltage of the day' },
      { mark: 'limit', line: true, words: 'cut-off and rated voltage' },
    ],
    52,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: 52, y: key.height + 14, width: WIDTH - 64, height: HEIGHT - key.height - 14 - 42 };
  const rows = days.map((day) => ({
    ...day,
    reachable_V: nights.get(day.night)?.highestReachable_V ?? Number.NaN,
  }));
  const highest_V = max(rows.flatMap((row) => [row.highest_V, row.reachable_V]).filter(Number.isFinite)) ?? 0;
  const up = scaleLinear([0, Math.max(highest_V, limits.rated_V) * 1.04], [plot.y + plot.height, plot.y]);
  const across = scaleLinear([0, Math.max(days.length, 1)], [plot.x, plot.x + plot.width]);
  const axis = monthAxis(
    days.map((day) => day.night),
    across,
    plot,
  );
  const band = area<(typeof rows)[number]>()
    .x((_, index) => across(index + 0.5))
    .y0((row) => up(row.lowest_V))
    .y1((row) => up(row.highest_V))
    .digits(1);
  const reachable = line<(typeof rows)[number]>()
    .defined((row) => row.reachable_V > 0)
    .x((_, index) => across(index + 0.5))
    .y((row) => up(row.reachable_V))
    .digits(1);
  const limit = (value: number, words: string) =>
    element('path', { class: 'limit', d: `M${plot.x} ${up(value).toFixed(1)}H${plot.x + plot.width}` }) +
    label(plot.x + plot.width - 6, up(value) - 5, `${words} ${value} V`, { class: 'strong end halo' });
  const marks = [
    key.markup,
    verticalAxis(up, plot, 'V', 5),
    axis.lines,
    element('path', { class: 'band', d: band(rows) ?? undefined }),
    element('path', { class: 'reachable', d: reachable(rows) ?? undefined }),
    limit(limits.cutoff_V, 'cut-off'),
    limit(limits.rated_V, 'rated'),
    axis.words,
  ];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'date', label: 'date' },
        { heading: 'capacitor_lowest_V', label: 'lowest', unit: 'V' },
        { heading: 'capacitor_highest_V', label: 'highest', unit: 'V' },
        { heading: 'highest_reachable_V', label: 'highest reachable voltage', unit: 'V' },
      ],
      rows: rows.map((row) => [
        row.night,
        fixed(row.lowest_V, 3),
        fixed(row.highest_V, 3),
        fixed(row.reachable_V, 3),
      ]),
    },
    reader: {
      step: 'day',
      ...plot,
      first: Math.max(0, leastIndex(rows, (a, b) => a.lowest_V - b.lowest_V) ?? 0),
    },
  };
}
