import { max, min } from 'd3-array';
import { area, line } from 'd3-shape';
import type { LifeWinter } from '../../ageing/LifeRun.ts';
import type { TrialLife } from '../../ageing/ScenarioLives.ts';
import { fixed } from '../../common/csvText.ts';
import { bandOf, bandWords, nightsText } from '../bandWords.ts';
import { breakWords } from '../lifeSentences.ts';
import { capital } from '../words.ts';
import { type ChartColumn, chart, type Panel, texts } from './chart.ts';
import { type Box, coordinate, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { LETTER } from './legend.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** A quantity of a life's winters, as a band between the three factors. */
interface LifeQuantity {
  key: string;
  title: string;
  axis: string;
  heading: string;
  unit: string;
  write: (value: number) => string;
  of: (winter: LifeWinter) => number;
  /** What it is in a winter. in: its band, in words */
  says: (last: string) => string;
  /** What its middle line and its band are drawn as. */
  marks: { band: string; middle: string };
  /** Ends of the axis, of the values that there are. */
  ends: (values: readonly number[]) => [number, number];
}

const CAPACITANCE: LifeQuantity = {
  key: 'life-capacitance',
  title: 'Capacitance left, winter by winter',
  axis: 'Percent of a new one',
  heading: 'capacitance_percent',
  unit: 'percent',
  write: (value) => fixed(value, 1),
  of: ({ age }) => 100 * age.capacitor.capacitance,
  says: (last) => `the capacitor has ${last} percent left`,
  marks: { band: 'band', middle: 'capacitor' },
  ends: () => [0, 100],
};

const NIGHTS: LifeQuantity = {
  key: 'life-nights',
  title: 'Failed nights, winter by winter',
  axis: 'Failed nights of a winter',
  heading: 'failed_nights',
  unit: 'nights',
  write: nightsText,
  of: ({ failedNights }) => failedNights,
  says: (last) => `it fails on ${last} nights`,
  marks: { band: 'dimBand', middle: 'dimLine' },
  ends: (values) => [0, Math.max(max(values) ?? 0, 4)],
};

const CHANCE: LifeQuantity = {
  key: 'life-chance',
  title: 'Winters that break the promise, winter by winter',
  axis: 'Of a hundred winters like those it is run through',
  heading: 'broken_of_100',
  unit: 'of 100',
  write: (value) => fixed(value, 0),
  of: ({ broken }) => 100 * broken,
  says: (last) => `the promise breaks in ${last} of a hundred`,
  marks: { band: 'dimBand', middle: 'dimLine' },
  ends: () => [0, 100],
};

/**
 * The pictures of a lamp's life: capacitance left and failed nights by winter, each a band between the three published
 * factors with the middle one as a line, and the winters in which the promise first breaks; where each winter is run
 * through several of the weather, also in how many of these the promise breaks.
 *
 * in: id; trial; rated, what is left of the capacitance at the end of the rating, beyond which all is an extrapolation;
 *   several, whether each winter is run through several of the weather
 * out: pictures; classes: band and capacitor, dimBand and dimLine, breaking, limit
 */
export function lifeCharts(id: string, trial: TrialLife, rated: number, several: boolean): Figure[] {
  const name = `${isolated(trial.lamp)} on ${isolated(trial.spot)}`;
  const years = trial.bands[0]!.winters.length;
  const broken = capital(`${name}${breakWords(trial, years)}.`);
  const said = ({ of, says }: LifeQuantity) => {
    const last = bandWords(
      bandOf(trial.bands, ({ winters }) => of(winters.at(-1)!)),
      (value) => fixed(value, 0),
    );
    return `${broken} In winter ${years} ${says(last)}.`;
  };
  const limit = { value: 100 * rated, words: 'end of its rating, below it extrapolated' };
  return [
    lifeChart(CAPACITANCE, id, trial, name, said(CAPACITANCE), limit),
    lifeChart(NIGHTS, id, trial, name, said(NIGHTS)),
    ...(several ? [lifeChart(CHANCE, id, trial, name, said(CHANCE))] : []),
  ];
}

/** A winter of the three lives, low to high. */
type Row = LifeWinter[];

function lifeChart(
  quantity: LifeQuantity,
  id: string,
  { bands }: TrialLife,
  name: string,
  summary: string,
  limit?: { value: number; words: string },
): Figure {
  const { key, title, marks, write, heading, unit, of } = quantity;
  const rows = bands[0]!.winters.map((_, k): Row => bands.map(({ winters }) => winters[k]!));
  const breaks = bands.map((life) => life.breaks);
  const first = breaks[1] ?? breaks[0];
  return chart<Row>(
    {
      key,
      id,
      title: `${title}: ${name}`,
      summary,
      legend: [
        { mark: marks.middle, line: true, words: 'middle of three published factors' },
        { mark: marks.band, words: 'between the low and the high one' },
        ...(limit === undefined ? [] : [{ mark: 'limit', line: true, words: limit.words }]),
        ...(breaks.some((winter) => winter !== undefined)
          ? [{ mark: 'breaking', words: 'the promise first breaks' }]
          : []),
      ],
      height: { plot: 220 },
      above: 42,
      below: 40,
      rows,
      columns: [
        texts<Row>('winter', 'winter', ([one]) => String(one!.winter)),
        ...bands.map(({ law }, k): ChartColumn<Row> => {
          return { heading: `${heading}_${law}`, label: law, unit, cell: (row) => write(of(row[k]!)) };
        }),
      ],
      reader: { step: 'winter', ...(first !== undefined && { first: first - 1 }) },
    },
    (plot) => lifeMarks(rows, quantity, breaks, limit?.value, plot),
  );
}

function lifeMarks(
  rows: readonly Row[],
  quantity: LifeQuantity,
  breaks: readonly (number | undefined)[],
  limit: number | undefined,
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const { of, ends, axis: words } = quantity;
  const up = upward(plot, ...ends(rows.flatMap((row) => row.map(of)))).nice(4);
  const axis = verticalAxis(up, plot, 4);
  const marks = () => [
    ...breakMarks(breaks, rows.length, plot),
    axis.lines,
    ...bandMarks(rows, quantity, plot, up),
    limit === undefined ? '' : path('limit', `M${plot.x} ${coordinate(up(limit))}H${plot.x + plot.width}`),
  ];
  // A single winter is a point.
  const [only] = rows.length > 1 ? [] : rows;
  return {
    panels: [{ box: plot, marks }],
    own: [
      label(plot.x, plot.y - 26, words, 'strong'),
      breakWordsAbove(breaks, rows.length, plot),
      axis.words,
      only === undefined ? '' : label(plot.x + plot.width / 2, up(of(only[1]!)) + 4, '●', 'middle'),
      ...winterAxis(rows.length, plot),
    ],
  };
}

/** From the first to the last winter in which the promise first breaks, and the middle one. */
function breakMarks(breaks: readonly (number | undefined)[], count: number, plot: Box): string[] {
  const told = breaks.filter((winter) => winter !== undefined);
  const [first] = told;
  if (first === undefined) return [];
  const across = rightward(plot, count);
  const from = across(first - 1);
  // Of a factor by which it never breaks the span has no end.
  const to = told.length < breaks.length ? plot.x + plot.width : across(told.at(-1)!);
  const middle = breaks[1];
  return [
    rect('breaking', { x: from, y: plot.y, width: Math.max(to - from, 1), height: plot.height }),
    middle === undefined
      ? ''
      : path('event', `M${coordinate(across(middle - 0.5))} ${plot.y}v${plot.height}`),
  ];
}

/** Over the winters in which the promise first breaks: that it does. */
function breakWordsAbove(breaks: readonly (number | undefined)[], count: number, plot: Box): string {
  const first = breaks.find((winter) => winter !== undefined);
  if (first === undefined) return '';
  const middle = breaks[1];
  const words = `the promise first breaks${middle === undefined ? '' : `: winter ${middle}`}`;
  // Within the plot.
  const right = plot.x + plot.width - LETTER * words.length;
  const x = Math.max(plot.x, Math.min(rightward(plot, count)(first - 1), right));
  return label(x, plot.y - 9, words);
}

function bandMarks(
  rows: readonly Row[],
  { marks, of }: LifeQuantity,
  plot: Box,
  up: (value: number) => number,
): string[] {
  const across = rightward(plot, rows.length);
  const at = (_: Row, index: number) => across(index + 0.5);
  const band = area<Row>(
    at,
    (row) => up(min(row, of)!),
    (row) => up(max(row, of)!),
  ).digits(1);
  const middle = line<Row>(at, (row) => up(of(row[1]!))).digits(1);
  return [path(marks.band, band(rows)), path(marks.middle, middle(rows))];
}

/** Room for the number of a winter. */
const TICK = 90;

/** Winters counted below a plot, round ones and the first. */
function winterAxis(count: number, plot: Box): string[] {
  const across = rightward(plot, count);
  const ticks = [
    1,
    ...across.ticks(plot.width / TICK).filter((winter) => Number.isInteger(winter) && winter > 1),
  ];
  const bottom = plot.y + plot.height;
  return [
    ...ticks.map((winter) => label(across(winter - 0.5), bottom + 17, `${winter}`, 'axis middle')),
    label(plot.x + plot.width, bottom + 34, 'winter of its life', 'axis end'),
  ];
}
