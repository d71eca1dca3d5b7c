import { greatest } from 'd3-array';
import { fixed } from '../../common/csvText.ts';
import type { NightRow } from '../../night/nightLedger.ts';
import type { Comparison } from '../../trial/Comparison.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { comparedName, dimOrOut, spokenDates } from '../words.ts';
import { type ChartColumn, chart, type Marks, texts } from './chart.ts';
import { type Box, isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';
import { fittingWords, wordsWidth } from './fittingWords.ts';
import { monthAxis } from './monthAxis.ts';
import { nightShares } from './nightStrip.ts';
import { placedInSeason, seasonEvenings } from './seasonEvenings.ts';
import { rightward } from './verticalAxis.ts';
import { worstWinter } from './worstWinter.ts';

/** A lamp in a spot, and the nights of its worst winter. */
interface ComparedLamp {
  name: string;
  /** The winter where the record holds several, as it follows the name; '' otherwise. */
  winter: string;
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
    const { worst, winter, nights } = worstWinter(trial, run.scenario.site.latitude_deg);
    return {
      name: `${comparedName(comparison, run.scenario.name, trial.lamp)} on ${trial.spot}`,
      winter: trial.statistics.winters.length > 1 ? `, ${winter}` : '',
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

/** Nights of several lamps beside each other: a row for each evening. */
interface Beside {
  /** Civil dates; of some year where the winters are not the same. */
  evenings: readonly string[];
  /** What an evening is called. */
  nameOf: (evening: string) => string;
  /** Of each lamp, in the places of the evenings. */
  nights: readonly (readonly (NightRow | undefined)[])[];
}

/** Lamps of one winter go by its dates, of several, each with its own worst, by the days of a season. */
function beside(lamps: readonly ComparedLamp[], southern: boolean): Beside {
  const dates = lamps.map(({ nights }) => nights.map(({ night }) => night));
  const longest = greatest(dates, (own) => own.length) ?? [];
  if (dates.every((own) => own.every((date, k) => date === longest[k])))
    return { evenings: longest, nameOf: String, nights: lamps.map(({ nights }) => nights) };
  const evenings = seasonEvenings(southern);
  return {
    evenings,
    nameOf: (evening) => spokenDates(evening),
    nights: lamps.map(({ nights }) => placedInSeason(nights, evenings)),
  };
}

/** Hours dim and out of each lamp, by the evening. */
function shortColumns(lamps: readonly ComparedLamp[], { nights }: Beside): ChartColumn<string>[] {
  return lamps.flatMap(({ name, winter }, k) =>
    (['dim', 'out'] as const).map((kind) => ({
      heading: `${kind}_${k + 1}_h`,
      label: `${isolated(name)}${winter}, ${kind}`,
      unit: 'h',
      cell: (evening: string, n: number) => {
        const night = nights[k]![n];
        return night?.night.slice(5) === evening.slice(5) ? fixed(night[`${kind}_h`], 2) : '';
      },
    })),
  );
}

/**
 * The nights of the decisive trials of a comparison one above the other, of each its worst winter: a night a column, lit
 * from below, dim and out hanging down.
 *
 * in: comparison; runs it was made from
 * out: undefined where no run holds a night
 */
export function nightsBesideChart(comparison: Comparison, runs: readonly RunResult[]): Figure | undefined {
  const all = runs.flatMap((run) => lampsOf(comparison, run));
  const lamps = all.filter((_, place) => comparison.decisive.includes(place));
  if (lamps.every(({ nights }) => nights.length === 0)) return undefined;
  const placed = beside(lamps, comparison.southern);
  const { evenings, nameOf } = placed;
  const years = nameOf === String;
  return chart(
    {
      key: 'nights-compared',
      id: 'compared',
      title: 'The nights, side by side',
      summary: lamps
        .map(
          (lamp) =>
            `${isolated(lamp.name)}${lamp.winter}: ${lamp.failedNights} failed nights of ${lamp.promisedNights}${lamp.how}.`,
        )
        .join(' '),
      legend: [
        { mark: 'lit', words: 'promised and lit' },
        { mark: 'dim', words: 'promised and dim' },
        { mark: 'hatched', words: 'promised and out' },
        { mark: 'night', words: years ? 'nothing promised' : 'nothing promised, or not on file' },
      ],
      height: { plot: lamps.length * ROW },
      left: 12,
      above: 10,
      below: 42,
      rows: evenings,
      columns: [texts<string>('night', 'evening of', nameOf), ...shortColumns(lamps, placed)],
      reader: {
        step: 'night',
        stops: {
          name: 'failed night of any lamp',
          at: (_, n) => placed.nights.some((nights) => nights[n]?.outcome === 'failed'),
        },
      },
    },
    (plot) => strips(lamps, placed, plot),
  );
}

/** A strip for each lamp, under its name. */
function strips(lamps: readonly ComparedLamp[], { evenings, nameOf, nights }: Beside, plot: Box): Marks {
  const across = rightward(plot, evenings.length);
  const years = nameOf === String;
  const drawn = lamps.map(({ name, winter }, k) => {
    const box = { ...plot, y: plot.y + k * ROW + (ROW - BAR), height: BAR };
    const marks = () => [
      rect('night', box),
      ...nightShares(nights[k]!, across, box, 0.84).flatMap((night) => [
        night.lit && path('lit', night.lit),
        night.dim && path('dim', night.dim),
        night.out && path('hatched', night.out),
      ]),
      monthAxis(evenings, across, box, 'onNight', years).lines,
    ];
    const words = isolated(fittingWords(name, plot.width / STRONG - wordsWidth(winter)));
    return { panel: { box, marks }, name: label(plot.x, box.y - 8, `${words}${winter}`, 'strong') };
  });
  return {
    panels: drawn.map(({ panel }) => panel),
    own: [
      ...drawn.map((strip) => strip.name),
      monthAxis(evenings, across, drawn.at(-1)!.panel.box, 'grid', years).words,
    ],
  };
}
