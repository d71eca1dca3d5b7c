import { scaleBand } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import { MONTH_NAMES } from '../../common/time.ts';
import type { NightRow } from '../../night/nightLedger.ts';
import type { Comparison } from '../../trial/Comparison.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { comparedName, dimOrOut, monthName } from '../words.ts';
import { barGroup } from './bar.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { fittingWords } from './fittingWords.ts';
import { monthAxis } from './monthAxis.ts';
import { nightShares } from './nightStrip.ts';
import { skyChart } from './skyChart.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';
import { worstWinter } from './worstWinter.ts';

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
  const all = runs.flatMap((run) => lampsOf(comparison, run));
  const lamps = all.filter((_, place) => comparison.decisive.includes(place));
  const walled = comparison.spots.some(({ hasSurroundings }) => hasSurroundings);
  return {
    light: lightChart(comparison),
    nights: lamps.some(({ nights }) => nights.length > 0) ? nightsChart(lamps) : undefined,
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
      summary: `Mean light on the cell in Wh/m2 a day for ${spots.length} spots, month by month, beside that on level ground with nothing around it.`,
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

/** A lamp in a spot, and the nights of its worst winter. */
interface ComparedLamp {
  name: string;
  /** In the order of the season. */
  nights: readonly NightRow[];
  /** Nights with a promise, and those that failed. */
  promisedNights: number;
  failedNights: number;
  /** How many were dim, how many out, where any failed. */
  how: string;
}

function lampsOf(comparison: Comparison, run: RunResult): ComparedLamp[] {
  return run.trials.map((trial) => {
    const { worst, nights } = worstWinter(trial, run.scenario.site.latitude_deg);
    return {
      name: `${comparedName(comparison, run.scenario.name, trial.lamp)} on ${trial.spot}`,
      nights,
      promisedNights: worst?.nights ?? 0,
      failedNights: worst?.failedNights ?? 0,
      how: worst === undefined || worst.failedNights === 0 ? '' : `, ${dimOrOut(worst)}`,
    };
  });
}

const ROW = 62;
const BAR = 34;
/** Height of the type of a lamp's name, and a little for its being strong. */
const STRONG = 13;

/** Hours dim and out of each lamp, by the number of the night. */
function shortColumns(lamps: readonly ComparedLamp[]): ChartColumn<string>[] {
  return lamps.flatMap(({ name, nights }, k) =>
    (['dim', 'out'] as const).map((kind) => ({
      heading: `${kind}_${k + 1}_h`,
      label: `${name}, ${kind}`,
      unit: 'h',
      cell: (_: string, n: number) => fixed(nights[n]?.[`${kind}_h`] ?? Number.NaN, 2),
    })),
  );
}

/** The nights of several lamps and spots one above the other: each night a column, lit from below, dim and out hanging down. */
function nightsChart(lamps: readonly ComparedLamp[]): Figure {
  const dates = lamps[0]!.nights.map(({ night }) => night);
  const count = Math.max(...lamps.map(({ nights }) => nights.length));
  return chart(
    {
      key: 'nights-compared',
      id: 'compared',
      title: 'The nights, side by side',
      summary: lamps
        .map(
          (lamp) =>
            `${isolated(lamp.name)}: ${lamp.failedNights} failed nights of ${lamp.promisedNights}${lamp.how}.`,
        )
        .join(' '),
      legend: [
        { mark: 'lit', words: 'promised and lit' },
        { mark: 'dim', words: 'promised and dim' },
        { mark: 'hatched', words: 'promised and out' },
        { mark: 'night', words: 'nothing promised' },
      ],
      height: { plot: lamps.length * ROW },
      left: 12,
      above: 10,
      below: 42,
      rows: dates,
      columns: [texts<string>('night', 'evening of', String), ...shortColumns(lamps)],
      reader: {
        step: 'night',
        stops: {
          name: 'failed night of any lamp',
          at: (_, n) => lamps.some(({ nights }) => nights[n]?.outcome === 'failed'),
        },
      },
    },
    (plot) => {
      const across = rightward(plot, count);
      const strips = lamps.map(({ name, nights }, k) => {
        const box = { ...plot, y: plot.y + k * ROW + (ROW - BAR), height: BAR };
        const marks = () => [
          rect('night', box),
          ...nightShares(nights, across, box, 0.84).flatMap((night) => [
            night.lit && path('lit', night.lit),
            night.dim && path('dim', night.dim),
            night.out && path('hatched', night.out),
          ]),
          monthAxis(dates, across, box, 'onNight').lines,
        ];
        const words = fittingWords(name, plot.width / STRONG);
        return { panel: { box, marks }, name: label(plot.x, box.y - 8, isolated(words), 'strong') };
      });
      return {
        panels: strips.map(({ panel }) => panel),
        own: [...strips.map((strip) => strip.name), monthAxis(dates, across, plot).words],
      };
    },
  );
}
