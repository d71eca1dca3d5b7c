import { max, minIndex } from 'd3-array';
import { stack } from 'd3-shape';
import type { EnergyMonth, EnergyStatistics } from '../../statistics/TrialStatistics.ts';
import { publishedName } from '../json.ts';
import { type ChartColumn, chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, label, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { LETTER_STRONG, legend } from './legend.ts';
import { monthBands } from './monthAxis.ts';
import { upward, verticalAxis } from './verticalAxis.ts';
import { wrappedWords } from './wrappedWords.ts';

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
  const ledgers: readonly Ledger[] = [
    {
      words: 'What the cell could have given at its best point, Wh a month',
      parts: BEST_POINT_PARTS,
      height: 180,
    },
    {
      words: 'What became of the energy it gave, Wh a month (another scale)',
      parts: CELL_PARTS.filter(({ key }) => key !== 'limiter_J' || limiter),
      height: 190,
    },
  ];
  return chart(
    {
      key: 'energy',
      id,
      title: `Where the energy went: ${name}`,
      summary,
      height: { plot: (width) => below({ x: 0, y: 0, width, height: 0 }, ledgers).height },
      above: 4,
      below: 42,
      rows: months,
      columns: COLUMNS,
      reader: { step: 'month', first: minIndex(months, (month) => month.cellBest_J) },
    },
    (plot) => {
      const drawn = below(plot, ledgers).heads.map((head, k) => ledgerMarks(months, ledgers[k]!, head));
      return { panels: drawn.map(({ panel }) => panel), own: drawn.flatMap(({ own }) => own) };
    },
  );
}

/** A panel of the picture: what is stacked in it. */
interface Ledger {
  words: string;
  parts: readonly LedgerPart[];
  height: number;
}

/** What stands over a panel, and where the panel is. */
interface Head {
  markup: string;
  box: Box;
}

/** Room for the names of months and above what follows them. */
const BETWEEN = 54;
const LINE = 16;

/** Panels below each other, each under its words and its legend, and the height of all. */
function below(plot: Box, ledgers: readonly Ledger[]): { heads: Head[]; height: number } {
  let y = plot.y;
  const right = plot.x + plot.width;
  const heads = ledgers.map(({ words, parts, height }) => {
    const lines = wrappedWords(words, plot.width / LETTER_STRONG);
    const entries = parts.map((part) => ({ mark: part.mark, over: 'outlineSoft', words: part.words }));
    const key = legend(entries, plot.x, y + lines.length * LINE + 4, right);
    const markup =
      lines.map((line, k) => label(plot.x, y + 11 + k * LINE, line, 'strong')).join('') + key.markup;
    const box = { ...plot, y: y + lines.length * LINE + 4 + key.height + 8, height };
    y = box.y + height + BETWEEN;
    return { markup, box };
  });
  return { heads, height: y - BETWEEN - plot.y };
}

function ledgerMarks(
  months: readonly EnergyMonth[],
  { parts }: Ledger,
  { markup, box }: Head,
): { panel: Panel; own: string[] } {
  const stacked = stack<unknown, EnergyMonth, LedgerPart>()
    .keys(parts)
    .value((month, part) => Math.max(month[part.key], 0) / J_PER_WH)([...months]);
  const top = max(stacked, (series) => max(series, (pair) => pair[1])) ?? 0;
  const up = upward(box, 0, Math.max(top, 0.001)).nice(4);
  const dates = months.map(({ month }) => month);
  const { across, names } = monthBands(dates, box, 0.22, 0.11);
  const axis = verticalAxis(up, box, 4);
  const bars = () =>
    stacked.flatMap((series) =>
      series.map(([from, to], k) => {
        const height = up(from) - up(to);
        const place = { x: across(dates[k]!) ?? 0, y: up(to), width: across.bandwidth(), height };
        return height < 0.05 ? '' : rect(`${series.key.mark} edged`, place);
      }),
    );
  return {
    panel: { box, marks: () => [axis.lines, ...bars()] },
    own: [markup, axis.words, names],
  };
}
