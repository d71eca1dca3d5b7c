import { leastIndex, max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { fixed } from '../../common/csvText.ts';
import type { NightRow } from '../../night/NightRow.ts';
import type { StoreDay } from '../../statistics/storeDays.ts';
import { element } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import { monthAxis, type Plot } from './monthAxis.ts';
import { verticalAxis } from './verticalAxis.ts';

/** Voltages that bound the store's. */
export interface StoreLimits {
  floor_V: number;
  rated_V: number;
}

const WIDTH = 1000;
const HEIGHT = 330;

/**
 * The store's voltage through the year: a band a day from its lowest to its highest, with the day's highest ceiling,
 * the floor and the rated voltage.
 *
 * in: id; name; days, in the order of the season; nights, the ledger's rows by their date; limits; summary
 * out: the picture; classes: band, ceiling, limit
 */
export function storeChart(
  id: string,
  name: string,
  days: readonly StoreDay[],
  nights: ReadonlyMap<string, NightRow>,
  limits: StoreLimits,
  summary: string,
): Figure {
  const facts = {
    key: 'store',
    id,
    title: `The store through the year: ${name}`,
    summary,
    width: WIDTH,
    height: HEIGHT,
  };
  const key = legend(
    [
      { mark: 'band', words: 'store, lowest to highest of the day' },
      { mark: 'ceiling', line: true, words: 'highest ceiling of the day' },
      { mark: 'limit', line: true, words: 'floor and rated voltage' },
    ],
    52,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: 52, y: key.height + 14, width: WIDTH - 64, height: HEIGHT - key.height - 14 - 42 };
  const rows = days.map((day) => ({
    ...day,
    ceiling_V: nights.get(day.night)?.highestCeiling_V ?? Number.NaN,
  }));
  const highest_V = max(rows.flatMap((row) => [row.highest_V, row.ceiling_V]).filter(Number.isFinite)) ?? 0;
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
  const ceiling = line<(typeof rows)[number]>()
    .defined((row) => row.ceiling_V > 0)
    .x((_, index) => across(index + 0.5))
    .y((row) => up(row.ceiling_V))
    .digits(1);
  const limit = (value: number, words: string) =>
    element('path', { class: 'limit', d: `M${plot.x} ${up(value).toFixed(1)}H${plot.x + plot.width}` }) +
    label(plot.x + plot.width - 6, up(value) - 5, `${words} ${value} V`, { class: 'strong end halo' });
  const marks = [
    key.markup,
    verticalAxis(up, plot, 'V', 5),
    axis.lines,
    element('path', { class: 'band', d: band(rows) ?? undefined }),
    element('path', { class: 'ceiling', d: ceiling(rows) ?? undefined }),
    limit(limits.floor_V, 'floor'),
    limit(limits.rated_V, 'rated'),
    axis.words,
  ];
  return {
    ...facts,
    svg: figureSvg(facts, marks),
    table: {
      columns: [
        { heading: 'date', label: 'date' },
        { heading: 'store_lowest_V', label: 'lowest', unit: 'V' },
        { heading: 'store_highest_V', label: 'highest', unit: 'V' },
        { heading: 'highest_ceiling_V', label: 'highest ceiling', unit: 'V' },
      ],
      rows: rows.map((row) => [
        row.night,
        fixed(row.lowest_V, 3),
        fixed(row.highest_V, 3),
        fixed(row.ceiling_V, 3),
      ]),
    },
    reader: {
      step: 'day',
      ...plot,
      first: Math.max(0, leastIndex(rows, (a, b) => a.lowest_V - b.lowest_V) ?? 0),
    },
  };
}
