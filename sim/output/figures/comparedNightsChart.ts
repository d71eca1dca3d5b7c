import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { NightRow } from '../../night/NightRow.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { isolated } from './isolated.ts';
import { label } from './label.ts';
import { legend } from './legend.ts';
import { monthAxis, type Plot } from './monthAxis.ts';

/** A lamp in a spot, and the nights of the winter shown. */
export interface NightsRow {
  name: string;
  /** In the order of the season. */
  nights: readonly NightRow[];
  /** Nights with a promise, and those that failed. */
  promisedNights: number;
  failedNights: number;
}

const WIDTH = 1000;
const LEFT = 12;
const ROW = 62;
const BAR = 34;

/**
 * The nights of several lamps and spots one above the other: each night a column, lit from below, dark hanging down by
 * its share of the promise.
 *
 * in: rows, at least one; all of as many nights
 * out: the picture; in each row a path of class lit and one of class hatched for each night that has such time
 */
export function comparedNightsChart(rows: readonly NightsRow[]): Figure {
  const first = rows[0]?.nights ?? [];
  const count = Math.max(...rows.map(({ nights }) => nights.length), 1);
  const key = legend(
    [
      { mark: 'lit', words: 'promised and lit' },
      { mark: 'hatched', words: 'promised and dark' },
      { mark: 'night', words: 'nothing promised' },
    ],
    LEFT,
    4,
    WIDTH - 12,
  );
  const plot: Plot = { x: LEFT, y: key.height + 10, width: WIDTH - LEFT - 12, height: rows.length * ROW };
  const facts = {
    key: 'nights-compared',
    id: 'compared',
    title: 'The nights, side by side',
    summary: rows
      .map((row) => `${isolated(row.name)}: ${row.failedNights} of ${row.promisedNights} nights fail.`)
      .join(' '),
    width: WIDTH,
    height: plot.y + plot.height + 42,
  };
  const across = scaleLinear([0, count], [plot.x, plot.x + plot.width]);
  const axis = monthAxis(
    first.map((row) => row.night),
    across,
    plot,
    'grid',
  );
  const strips = rows.map(({ name, nights }, k) => {
    const top = plot.y + k * ROW + (ROW - BAR);
    return (
      label(plot.x, top - 8, isolated(name), { class: 'strong' }) +
      element('rect', { class: 'night', x: plot.x, y: top, width: plot.width, height: BAR }) +
      strip(nights, across, top)
    );
  });
  return {
    ...facts,
    svg: figureSvg(facts, [key.markup, axis.lines, ...strips, axis.words]),
    table: {
      columns: [
        { heading: 'night', label: 'evening of' },
        ...rows.map(({ name }, k) => ({ heading: `dark_${k + 1}_h`, label: `${name}, dark`, unit: 'h' })),
      ],
      rows: first.map((row, n) => [
        row.night,
        ...rows.map(({ nights }) => fixed(nights[n]?.short_h ?? Number.NaN, 2)),
      ]),
    },
    reader: {
      step: 'night',
      ...plot,
      stops: {
        name: 'night that fails somewhere',
        rows: first.flatMap((_, n) =>
          rows.some(({ nights }) => nights[n]?.outcome === 'failed') ? [n] : [],
        ),
      },
      first: Math.floor(count / 2),
    },
  };
}

function strip(nights: readonly NightRow[], across: (index: number) => number, top: number): string {
  const wide = shortNumber((across(1) - across(0)) * 0.84);
  const marks = nights.map((night, index) => {
    if (!(night.promised_h > 0)) return '';
    const x = shortNumber(across(index));
    const split = shortNumber(top + (BAR * night.short_h) / night.promised_h);
    const lit =
      night.lit_h > 0
        ? element('path', { class: 'lit', d: `M${x} ${split}h${wide}V${top + BAR}h-${wide}z` })
        : '';
    const dark =
      night.short_h > 0
        ? element('path', { class: 'hatched', d: `M${x} ${top}h${wide}V${split}h-${wide}z` })
        : '';
    return lit + dark;
  });
  return marks.join('');
}
