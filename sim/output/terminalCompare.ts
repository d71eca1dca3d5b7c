import { greatest } from 'd3-array';
import { fixed } from '../common/csvText.ts';
import type { ComparedTrial, Comparison } from '../trial/Comparison.ts';
import { decisiveWords } from '../trial/decisiveTrials.ts';
import { compareDetails } from './compareDetails.ts';
import { claimInShort, compareRows } from './compareRows.ts';
import { limitInShort, limitSentence } from './limitSentence.ts';
import { type Look, type Paint, paint, sideBySide } from './textTable.ts';
import { CAUTION_LINES, comparedName, monthName, plural, promiseWords, shownWords } from './words.ts';

/**
 * A comparison for people: what differs beside spots and lamps (loudly), light by month, what limits each spot, the
 * nights side by side, the claim tested, and the sky from every spot with something around it; of many trials the nights
 * and the claim of the decisive ones, and the sky from their spots.
 *
 * in: comparison; look, of the terminal
 * out: text, ending in a line break
 */
export function terminalCompare(comparison: Comparison, look: Look = {}): string {
  const style = paint(look);
  const shown = comparison.decisive.map((place) => comparison.trials[place]!);
  const lines = [
    ...beginning(comparison, style),
    '',
    ...lightTable(comparison, style),
    '',
    ...limitLines(comparison, style),
    ...restLines(comparison, style),
    ...(style.details ? compareDetails(comparison, shown, style) : shortLines(comparison, shown, style)),
    '',
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

/** Of trials what tells them apart, and for which the claim holds. */
function shortLines(comparison: Comparison, shown: readonly ComparedTrial[], style: Paint): string[] {
  const inOrder = comparison.tables.flatMap(({ trials }) =>
    trials.map((place) => comparison.trials[place]!).filter((trial) => shown.includes(trial)),
  );
  return [
    '',
    ...compareRows(comparison, inOrder, style),
    '',
    ...style.wrap(claimInShort(comparison, inOrder)),
    ...style.wrap(
      'With --details: every month, what limits each spot in numbers, the nights side by side, the claim, the sky from every spot.',
    ),
  ];
}

function beginning(comparison: Comparison, style: Paint): string[] {
  const { scenarios, spots, by, differences, sameWeather, trials } = comparison;
  const names = scenarios.map((scenario) => scenario.name).join(' and ');
  const lamps = new Set(trials.map((trial) => trial.lamp)).size;
  const what =
    by === 'spot' ? 'spots side by side, a table for each lamp' : 'lamps side by side, a table for each spot';
  const counts = `${spots.length} ${plural(spots.length, 'spot')}, ${lamps} ${plural(lamps, 'lamp')}`;
  const [first] = scenarios;
  const alike = scenarios.every(({ promise }) => JSON.stringify(promise) === JSON.stringify(first!.promise));
  const { sha256, hours, first_utc, filled_hours, options } = first!.weather;
  const filled = filled_hours === 0 ? '' : `, ${filled_hours} of them filled or standing in`;
  const made = shownWords(options);
  const logged = sha256 === '' && made === '';
  const source = logged ? 'Light logged on the cell' : 'The same weather for all';
  return [
    ...style.wrap(`${names} compared: ${counts}; ${what}`).map(style.strong),
    ...differences.flatMap((difference) => style.wrap(`! ${difference}.`, 0, 2)).map(style.bad),
    ...scenarios.flatMap(({ questions }) =>
      questions.flatMap((question) => style.wrap(`? ${question}`, 0, 2)),
    ),
    ...style.wrap(
      sameWeather ? `${source}: ${hours} hours from ${first_utc}${filled}.${made && ` ${made}`}` : '',
    ),
    ...(alike
      ? style.wrap(promiseWords(first!.promise))
      : scenarios.flatMap(({ name, promise }) => style.wrap(`${name}. ${promiseWords(promise)}`, 0, 2))),
  ];
}

function lightTable(comparison: Comparison, style: Paint): string[] {
  const { spots, months, southern } = comparison;
  const darkest = southern ? [5, 6, 7] : [11, 12, 1];
  const number = (value: number) => fixed(value, value < 10 ? 1 : 0) || '-';
  const columns: { name: string; cells: string[] }[] = [];
  let level = '';
  for (const spot of spots) {
    const cells = spot.months.map((month) => number(month.ghi_Wh_m2_day));
    if (cells.join() !== level && spot.months.some((month) => month.ghi_Wh_m2_day >= 0)) {
      level = cells.join();
      columns.push({ name: comparedName(comparison, spot.scenario, 'level ground'), cells });
    }
    columns.push({
      name: comparedName(comparison, spot.scenario, spot.spot),
      cells: spot.months.map(({ lightOnCell_Wh_m2_day, shareOfOpen }) => {
        const share = Number.isNaN(shareOfOpen) ? '' : ` ${fixed(100 * shareOfOpen, 0).padStart(3)}%`;
        return `${number(lightOnCell_Wh_m2_day)}${share}`;
      }),
    });
  }
  return [
    ...style
      .wrap(
        level === ''
          ? 'Light on the cell, Wh/m2 a day'
          : 'Light on the cell, Wh/m2 a day, and as a share of that on level ground',
      )
      .map(style.strong),
    ...sideBySide(
      columns.map((column) => column.name),
      months.flatMap((month, m) =>
        spots.some((spot) => spot.months[m]!.days > 0) && (style.details || darkest.includes(month))
          ? [{ label: monthName(month), cells: columns.map((column) => column.cells[m]!) }]
          : [],
      ),
      style.columns,
    ),
  ];
}

function limitLines(comparison: Comparison, style: Paint): string[] {
  const { spots } = comparison;
  return [
    style.strong('What limits each spot'),
    ...spots.flatMap((spot) => {
      const name = comparedName(comparison, spot.scenario, spot.spot);
      return style.wrap(`${name}: ${(style.details ? limitSentence : limitInShort)(spot, comparison)}`, 2, 4);
    }),
    ...style.wrap(
      style.details && spots.some((spot) => spot.limits !== undefined)
        ? 'Unshaded: the same cell under the same lid, nothing around it, tilted alike towards the noon sun. J left in the morning: above the cut-off.'
        : '',
      2,
    ),
  ];
}

const MOST_TABLES = 40;

/** Every table of a comparison of many trials in a line, and which of the trials follow in full. */
function restLines({ tables, trials, by, decisive }: Comparison, style: Paint): string[] {
  const left = trials.length - decisive.length;
  if (left === 0) return [];
  const lines = tables.slice(0, MOST_TABLES).flatMap(({ name, trials: places }) => {
    const own = places.map((place) => trials[place]!);
    const count = own.filter(({ verdict }) => verdict === 'kept').length;
    const worst = greatest(own, (trial) => trial.failedNights)!;
    const most =
      worst.failedNights === 0 ? '' : `; most failed nights ${worst.failedNights}, with ${worst[by]}`;
    return style.wrap(`${name}: kept with ${count} of ${own.length} ${plural(own.length, by)}${most}`, 2, 4);
  });
  const more = tables.length - MOST_TABLES;
  return [
    '',
    style.strong(by === 'spot' ? 'Lamp by lamp' : 'Spot by spot'),
    ...lines,
    ...(more > 0 ? [`  ${more} more: see compare.json`] : []),
    '',
    ...style.wrap(
      `Shown below: ${decisiveWords({})}.${style.filed ? ` The other ${left}: a row each on the page, every number in compare.json.` : ''}`,
    ),
  ];
}
