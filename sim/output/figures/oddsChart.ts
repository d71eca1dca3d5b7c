import { max } from 'd3-array';
import { dateText } from '../../common/civilTime.ts';
import { DAY_MS } from '../../common/time.ts';
import type { TrialOdds } from '../../trial/odds.ts';
import { spokenDates } from '../words.ts';
import { bar } from './bar.ts';
import { chart, numbers, texts } from './chart.ts';
import { isolated, label } from './element.ts';
import type { Figure } from './Figure.ts';
import { monthAxis } from './monthAxis.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';
import { rightward, upward, verticalAxis } from './verticalAxis.ts';

/** A night of the season, over all made winters. */
interface SeasonNight {
  /** Civil date, of a year that stands for all. */
  night: string;
  /** Of a hundred winters, those in which it fails. */
  failing: number;
}

/** Trials whose season is drawn, at most. */
export const MOST_ODDS_DRAWN = 6;

/** A year without a 29 February. */
const YEAR = 2001;

/**
 * When in the season a lamp fails: for each night, in how many of a hundred made winters.
 *
 * in: id; odds, of a trial; southern, whether its season begins with January
 * out: the picture, a bar a night
 */
export function oddsChart(id: string, odds: TrialOdds, southern: boolean): Figure {
  const first_ms = Date.UTC(YEAR, southern ? 0 : 6, 1);
  const nights = odds.failingShare.map((share, n): SeasonNight => {
    return { night: dateText(first_ms + n * DAY_MS), failing: 100 * share };
  });
  const name = `${isolated(odds.lamp)} on ${isolated(odds.spot)}`;
  const most = max(nights, ({ failing }) => failing) ?? 0;
  const worst = nights.find(({ failing }) => failing === most);
  return chart(
    {
      key: 'odds',
      id,
      title: `When it fails: ${name}`,
      summary:
        most === 0
          ? `${name}: in ${odds.winters} made winters no night failed.`
          : `${name}: of ${odds.winters} made winters, how many of a hundred fail on each night; most, ${most.toFixed(0)}, on ${spokenDates(worst!.night)}.`,
      legend: [
        {
          mark: 'solid',
          words: 'of 100 made winters, those in which this night fails',
        },
      ],
      height: { whole: 240 },
      above: 24,
      below: 24,
      rows: nights,
      columns: [
        texts<SeasonNight>('night', 'night', ({ night }) => spokenDates(night)),
        numbers<SeasonNight>('failing_of_100', 'of 100 winters fails in', '', 1, ({ failing }) => failing),
      ],
      reader: { step: 'night', first: nights.findIndex(({ failing }) => failing === most) },
    },
    (plot) => {
      const up = upward(plot, 0, Math.max(most, 5)).nice(4);
      const across = rightward(plot, nights.length);
      const axis = monthAxis(
        nights.map(({ night }) => night),
        across,
        plot,
        'grid',
        false,
      );
      const wide = across(1) - across(0);
      const shares = verticalAxis(up, plot, 4);
      const marks = () => [
        axis.lines,
        shares.lines,
        ...nights.map(({ failing }, n) => (failing > 0 ? bar('solid', across(n), wide, failing, up) : '')),
      ];
      const words = label(plot.x, plot.y - 10, 'Of a hundred winters', 'strong');
      return { panels: [{ box: plot, marks }], own: [words, shares.words, axis.words] };
    },
  );
}

/**
 * The pictures of odds as files.
 *
 * in: trials; southern, as of `oddsChart`
 * out: names such as 'odds-1-lawn-single.svg', with their figures
 */
export function oddsFigureFiles(trials: readonly TrialOdds[], southern: boolean): FigureFile[] {
  return trials.slice(0, MOST_ODDS_DRAWN).map((trial, k) => ({
    name: `odds-${k + 1}-${[trial.spot, trial.lamp].map(slug).filter(Boolean).join('-')}.svg`,
    figure: oddsChart(`odds-${k + 1}`, trial, southern),
  }));
}
