import { max, min } from 'd3-array';
import { scaleBand } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { LifeSweep, LifeVariant } from '../../ageing/ScenarioLives.ts';
import { nightsText } from '../bandWords.ts';
import { keptWinters, SWEPT, sweepSentences } from '../sweepWords.ts';
import { capital } from '../words.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, coordinate, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { upward, verticalAxis } from './verticalAxis.ts';

/** A quantity of a sweep, in a row of the picture of its own: by the three factors, or the same by all. */
interface SweptQuantity {
  words: string;
  marks: { band: string; middle: string };
  of: (variant: LifeVariant) => readonly number[];
}

const QUANTITIES: readonly SweptQuantity[] = [
  {
    words: 'Light of the first winter, klm h',
    marks: { band: 'litBand', middle: 'litLine' },
    of: ({ tonight }) => [tonight.light_lm_h / 1000],
  },
  {
    words: 'Winters that keep the promise',
    marks: { band: 'band', middle: 'capacitor' },
    of: ({ bands }) => bands.map(keptWinters),
  },
  {
    words: 'Light until the promise breaks, klm h',
    marks: { band: 'litBand', middle: 'litLine' },
    of: ({ untilBreak_klm_h }) => untilBreak_klm_h,
  },
];

const PANEL = 104;
const GAP = 38;
/** Room for the label of a value. */
const LABEL = 52;
const LAWS = ['low', 'middle', 'high'] as const;

/**
 * What one value of a lamp does now and in the long run: light of the first winter, winters that keep the promise and
 * light until it breaks, below each other over the same values; where the last is most, a mark through all.
 *
 * in: id; sweep
 * out: the picture; values that cannot be are left out
 */
export function sweepChart(id: string, sweep: LifeSweep): Figure {
  const { what, lamp, spot, variants, best } = sweep;
  const rows = variants.filter(({ cannotBe }) => cannotBe === undefined);
  const most = variants[best ?? -1];
  const three = (heading: string, unit: string, decimals: number, of: SweptQuantity['of']) =>
    LAWS.map(
      (law, k): ChartColumn<LifeVariant> =>
        numbers(
          `${heading}_${law}`,
          `${heading.replaceAll('_', ' ')}, ${law}`,
          unit,
          decimals,
          (row) => of(row)[k]!,
        ),
    );
  return chart<LifeVariant>(
    {
      key: `life-${what}`,
      id,
      title: `${capital(SWEPT[what])}, light now against winters: ${isolated(lamp)} on ${isolated(spot)}`,
      summary: sweepSentences(sweep).join(' '),
      legend: [
        { mark: 'litLine', line: true, words: 'light' },
        { mark: 'capacitor', line: true, words: 'winters' },
        { mark: 'band', words: 'between the low and the high factor' },
        ...(most === undefined
          ? []
          : [{ mark: 'breaking', words: `most light until it breaks: ${most.label}` }]),
      ],
      height: { plot: 3 * PANEL + 2 * GAP },
      above: 30,
      below: 40,
      rows,
      columns: [
        { ...texts<LifeVariant>(what.replace('-', '_'), SWEPT[what], (row) => row.label), signs: true },
        numbers(
          'light_first_winter_klm_h',
          'light of the first winter',
          'klm h',
          2,
          (row) => QUANTITIES[0]!.of(row)[0]!,
        ),
        {
          heading: 'failed_nights_first_winter',
          label: 'failed nights',
          unit: 'nights',
          cell: ({ tonight }) => nightsText(tonight.failedNights),
        },
        ...three('winters_kept', '', 0, QUANTITIES[1]!.of),
        ...three('light_until_break', 'klm h', 1, QUANTITIES[2]!.of),
      ],
      reader: { step: 'value', ...(most !== undefined && { first: rows.indexOf(most) }) },
    },
    (plot) => panels(rows, most === undefined ? -1 : rows.indexOf(most), what, plot),
  );
}

function panels(
  rows: readonly LifeVariant[],
  chosen: number,
  what: LifeSweep['what'],
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const across = scaleBand(rows.keys(), [plot.x, plot.x + plot.width]);
  const wide = across.bandwidth();
  const centre = (index: number) => (across(index) ?? 0) + wide / 2;
  const every = Math.ceil((rows.length * LABEL) / plot.width);
  const bottom = plot.y + plot.height;
  const drawn = QUANTITIES.map((quantity, k) => {
    const box = { ...plot, y: plot.y + k * (PANEL + GAP), height: PANEL };
    const { marks, words } = panelMarks(quantity, rows, centre, box);
    const chosenBand = () =>
      chosen < 0 ? '' : rect('breaking', { ...box, x: across(chosen) ?? 0, width: wide });
    return { panel: { box, marks: () => [chosenBand(), ...marks()] }, words };
  });
  return {
    panels: drawn.map(({ panel }) => panel),
    own: [
      ...drawn.map(({ words }) => words),
      ...rows.map(({ value, unit }, k) =>
        k % every === 0 ? label(centre(k), bottom + 17, `${value} ${unit}`, 'axis middle') : '',
      ),
      label(plot.x + plot.width, bottom + 34, SWEPT[what], 'axis end'),
    ],
  };
}

function panelMarks(
  { words, marks, of }: SweptQuantity,
  rows: readonly LifeVariant[],
  centre: (index: number) => number,
  panel: Box,
): { marks: () => string[]; words: string } {
  const up = upward(panel, 0, Math.max(max(rows.flatMap(of)) ?? 0, 1)).nice(3);
  const middle = (row: LifeVariant) => of(row)[1] ?? of(row)[0]!;
  const at = (_: LifeVariant, index: number) => centre(index);
  const band = area<LifeVariant>(
    at,
    (row) => up(min(of(row))!),
    (row) => up(max(of(row))!),
  ).digits(1);
  const curve = line<LifeVariant>(at, (row) => up(middle(row))).digits(1);
  const dots = rows.map(
    (row, k) =>
      `M${coordinate(centre(k) - 2.5)} ${coordinate(up(middle(row)))}a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0`,
  );
  const axis = verticalAxis(up, panel, 3);
  return {
    marks: () => [axis.lines, path(marks.band, band(rows)), path(marks.middle, curve(rows))],
    words:
      label(panel.x, panel.y - 10, words, 'strong') +
      axis.words +
      path(`${marks.middle} dots`, dots.join('')),
  };
}
