import { fixed } from '../../common/csvText.ts';
import type { NightRow } from '../../night/nightLedger.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import { type ChartColumn, chart, texts } from './chart.ts';
import { type Box, coordinate, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthTicks, NAME_WIDTH } from './monthAxis.ts';
import { nightShares } from './nightStrip.ts';
import { placedInSeason, seasonEvenings } from './seasonEvenings.ts';
import { rightward } from './verticalAxis.ts';

/** A winter of a trial, as a row of a picture. */
interface WinterRow {
  winter: string;
  failedNights: number;
  /** A place for each evening of the season, that of 29 February too; undefined where the record has none. */
  nights: (NightRow | undefined)[];
}

const ROW = 24;
const BAR = 19;
const NAMES = 90;

/**
 * Every night of several winters: a winter a row, a night a cell, kept or failed and by how much of its promise.
 *
 * in: id; name; nights of the trial; winters of it; southern, whether seasons begin with January; summary
 * out: the picture
 */
export function wintersChart(
  id: string,
  name: string,
  nights: readonly NightRow[],
  winters: readonly WinterStatistics[],
  southern: boolean,
  summary: string,
): Figure {
  const evenings = seasonEvenings(southern);
  const rows = winterRows(nights, winters, evenings);
  return chart(
    {
      key: 'winters',
      id,
      title: `Winter by winter, every night: ${name}`,
      summary,
      legend: [
        { mark: 'lit', words: 'kept' },
        { mark: 'dim', words: 'failed, dim: the longer, the more of the promise' },
        { mark: 'hatched', words: 'failed, out' },
        { mark: 'night', words: 'nothing promised, or not on file' },
      ],
      height: { plot: rows.length * ROW },
      left: NAMES,
      above: 12,
      below: 24,
      rows: evenings,
      columns: eveningColumns(rows),
      reader: {
        step: 'night',
        stops: {
          name: 'failed night of any winter',
          at: (_, day) => rows.some(({ nights: placed }) => placed[day]?.outcome === 'failed'),
        },
      },
    },
    (plot) => {
      const across = rightward(plot, evenings.length);
      const months = monthTicks(evenings);
      const bottom = plot.y + plot.height;
      const begins = months.map(({ index }) => `M${coordinate(across(index))} ${plot.y}V${bottom}`);
      const tight = across(28) - across(0) < NAME_WIDTH;
      const names = months.map(({ index, length, name: month }) =>
        label(across(index + length / 2), bottom + 15, tight ? month.slice(0, 1) : month, 'axis middle'),
      );
      const marks = () => [
        ...rows.flatMap((row, k) => winterMarks(row, k, across, plot)),
        path('onNight', begins.slice(1).join('')),
      ];
      return {
        panels: [{ box: plot, marks }],
        own: [...rows.flatMap((row, k) => rowNames(row, k, plot)), ...names],
      };
    },
  );
}

/** Height of a failed night of which hardly anything is short, as a share of one that is short all of its promise. */
const LEAST_HEIGHT = 0.4;

/** Hours short of each winter, by the evening. */
function eveningColumns(rows: readonly WinterRow[]): ChartColumn<string>[] {
  const ofWinters = rows.map(({ winter, nights }) => ({
    heading: `short_${winter.replace('/', '_')}_h`,
    label: winter,
    unit: 'h short',
    cell: (evening: string, day: number) =>
      nights[day]?.night.slice(5) === evening.slice(5) ? fixed(nights[day].short_h, 2) : '',
  }));
  return [texts<string>('evening', 'evening of', (evening) => evening.slice(5)), ...ofWinters];
}

function winterRows(
  nights: readonly NightRow[],
  winters: readonly WinterStatistics[],
  evenings: readonly string[],
): WinterRow[] {
  // A record that begins in the night holds a part of a winter without a night.
  const shown = winters.filter((winter) => winter.complete || winter.nights > 0);
  return shown.map(({ winter, failedNights }) => ({
    winter,
    failedNights,
    nights: placedInSeason(
      nights.filter((row) => row.winter === winter),
      evenings,
    ),
  }));
}

/** A row: kept nights that follow each other as one mark, each failed one hanging down by its hours dim and out. */
function winterMarks(
  { nights }: WinterRow,
  k: number,
  across: (index: number) => number,
  plot: Box,
): string[] {
  const box = { ...plot, y: plot.y + k * ROW, height: BAR };
  const kept: string[] = [];
  for (let from = 0; from < nights.length; from++) {
    if (nights[from]?.outcome !== 'kept') continue;
    let to = from;
    while (nights[to]?.outcome === 'kept') to++;
    const [left, right] = [coordinate(across(from)), coordinate(across(to))];
    kept.push(`M${left} ${box.y}H${right}v${BAR}H${left}z`);
    from = to;
  }
  const failed = nights.flatMap((row, day) =>
    row?.outcome === 'failed' ? nightShares([seen(row)], (index) => across(day + index), box, 1) : [],
  );
  const all = (kind: 'lit' | 'dim' | 'out') => failed.map((night) => night[kind]).join('');
  return [
    rect('night', box),
    path('lit', kept.join('') + all('lit')),
    path('dim', all('dim')),
    path('hatched', all('out')),
  ];
}

function rowNames({ winter, failedNights }: WinterRow, k: number, plot: Box): string[] {
  const middle = plot.y + k * ROW + BAR / 2 + 4;
  return [
    label(plot.x - 36, middle, winter, 'axis end'),
    label(plot.x - 8, middle, String(failedNights), 'strong end'),
  ];
}

/** A failed night with its hours stretched, so that the least of them can be seen. */
function seen(row: NightRow): NightRow {
  const { promised_h, short_h, dim_h, out_h } = row;
  const height = LEAST_HEIGHT + (1 - LEAST_HEIGHT) * (short_h / promised_h);
  const stretch = (height * promised_h) / short_h;
  return { ...row, dim_h: dim_h * stretch, out_h: out_h * stretch, lit_h: promised_h * (1 - height) };
}
