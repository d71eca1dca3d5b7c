import { greatest } from 'd3-array';
import { fixed } from '../common/csvText.ts';
import type { WinterOdds } from '../statistics/WinterOdds.ts';
import type { ComparedSpot, ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';
import { decisiveWords } from '../trial/decisiveTrials.ts';
import { coarserSky } from '../trial/spotSkies.ts';
import { claimInShort, compareRows, trialName } from './compareRows.ts';
import { CLAIM, limitInShort, limitSentence, trialsIn } from './limitSentence.ts';
import { moneyCells } from './moneyWords.ts';
import { nightCount, ofHundred } from './oddsWords.ts';
import { skyPictureText } from './skyPictureText.ts';
import {
  fitting,
  type Look,
  type Paint,
  paint,
  type SideRow,
  sideBySide,
  type TextColumn,
  textTable,
} from './textTable.ts';
import {
  CAUTION_LINES,
  comparedName,
  monthName,
  plural,
  promiseWords,
  shortDates,
  shownWords,
} from './words.ts';

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
    ...(style.details ? wholeLines(comparison, shown, style) : shortLines(comparison, shown, style)),
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

/** Of trials every number, a table for each lamp or spot; the claim in numbers; the sky from their spots. */
function wholeLines(comparison: Comparison, shown: readonly ComparedTrial[], style: Paint): string[] {
  return [
    ...comparison.tables.flatMap((table) => {
      const places = table.trials.filter((place) => comparison.decisive.includes(place));
      return places.length === 0 ? [] : ['', ...trialTable(comparison, table.name, places, style)];
    }),
    '',
    ...claimTable(comparison, shown, style),
    ...comparison.spots
      .filter((spot) => shown.length === comparison.trials.length || trialsIn(spot, shown).length > 0)
      .flatMap((spot) => skyLines(comparison, spot, style)),
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

const VERDICTS: Readonly<Record<ComparedTrial['verdict'], string>> = {
  kept: 'kept',
  broken: 'BROKEN',
  'nothing-promised': 'no promise',
  'no-whole-winter': 'no verdict',
};

function trialTable(comparison: Comparison, name: string, places: readonly number[], style: Paint): string[] {
  const { trials, by, months } = comparison;
  const shown = places.map((place) => trials[place]!);
  const row = (label: string, cell: (trial: ComparedTrial) => string): SideRow => ({
    label,
    cells: shown.map(cell),
  });
  const severalWinters = shown.some((trial) => trial.winters > 1);
  const failing = months.filter((_, m) => shown.some((trial) => trial.months[m]!.failedNights > 0));
  return [
    style.strong(by === 'spot' ? `${name}, spot by spot` : `Lamps on ${name}`),
    ...sideBySide(
      shown.map((trial) => comparedName(comparison, trial.scenario, by === 'spot' ? trial.spot : trial.lamp)),
      [
        {
          ...row('promise', (trial) => VERDICTS[trial.verdict]),
          paint: (text: string, k: number) => {
            const { verdict } = shown[k]!;
            return verdict === 'broken' ? style.bad(text) : verdict === 'kept' ? style.good(text) : text;
          },
        },
        ...(severalWinters ? oddsRows(row) : []),
        row(
          severalWinters ? 'failed nights of all' : 'failed nights',
          ({ failedNights, nights }) => `${failedNights} of ${nights}`,
        ),
        row('of them dim, out', ({ failedNights: failed, failedOut: out }) =>
          failed === 0 ? '-' : `${failed - out}, ${out}`,
        ),
        row('hours short', ({ short_h, promised_h }) => `${fixed(short_h, 1)} of ${fixed(promised_h, 0)}`),
        row('of them dim, out', ({ short_h, dim_h, out_h }) =>
          short_h === 0 ? '-' : `${fixed(dim_h, 1)}, ${fixed(out_h, 1)}`,
        ),
        row('failed nights in a row', ({ longestSpell }) =>
          longestSpell ? String(longestSpell.nights) : '-',
        ),
        row('', ({ longestSpell: spell }) => (spell ? shortDates(spell.from, spell.to) : '')),
        row('darkest fortnight, h short', ({ darkestFortnight }) =>
          darkestFortnight ? fixed(darkestFortnight.short_h, 1) : '-',
        ),
        row('', ({ darkestFortnight: span }) => (span ? shortDates(span.from, span.to) : '')),
        row('least left in the morning, J', ({ smallestReserve_J }) => fixed(smallestReserve_J, 0) || '-'),
        row('lumen-hours a year', ({ lightGiven_lm_h }) => fixed(lightGiven_lm_h, 0) || '-'),
        ...(shown.some(({ money }) => money.price !== undefined)
          ? moneyCells(shown).map(({ heading, cell }) => row(heading, (trial) => cell(trial.money) || '-'))
          : []),
        ...failing.map((month) =>
          row(`failed in ${monthName(month)} (h short)`, (trial) => {
            const { failedNights, short_h } = trial.months.find((each) => each.month === month)!;
            return failedNights === 0 ? '-' : `${failedNights} (${fixed(short_h, 1)})`;
          }),
        ),
      ].filter(({ label, cells }) => label !== '' || cells.some((cell) => cell !== '')),
      style.columns,
    ),
  ];
}

/** What several winters come to as a sample, side by side. */
function oddsRows(row: (label: string, cell: (trial: ComparedTrial) => string) => SideRow): SideRow[] {
  const cell = (of: (odds: WinterOdds) => string) => (trial: ComparedTrial) =>
    trial.odds === undefined ? '-' : of(trial.odds);
  const inTen = cell(({ failedNights: { worstInTen } }) =>
    worstInTen === undefined ? '-' : fixed(worstInTen, 0),
  );
  return [
    row(
      'failed nights, typical winter',
      cell(({ failedNights }) => nightCount(failedNights.typical)),
    ),
    row('worst winter in ten', inTen),
    row(
      'worst winter',
      cell(({ failedNights }) => String(failedNights.worst)),
    ),
    row(
      '',
      cell(({ worstWinter }) => worstWinter),
    ),
    row('winters kept', (trial) => `${trial.odds?.kept ?? '-'} of ${trial.winters}`),
    row(
      'so of a hundred, 90 percent',
      cell(({ chance }) => ofHundred(chance)),
    ),
  ];
}

function skyLines(
  comparison: Comparison,
  { spot, scenario, picture, hasSurroundings }: ComparedSpot,
  style: Paint,
): string[] {
  if (picture === undefined || !hasSurroundings) return [];
  const { southern } = comparison;
  const name = comparedName(comparison, scenario, spot);
  const [title = '', ...drawn] = skyPictureText(coarserSky(picture), name, { southern, bare: true });
  return ['', ...style.wrap(title), ...fitting(drawn, `The sky from ${name}`, style)];
}

const HOLDS: Readonly<Record<ChargeClaim['inWinter'], string>> = {
  holds: 'HOLDS',
  'in-part': 'IN PART',
  fails: 'FAILS',
  unknown: 'no winter',
};

/**
 * How much of the claim of full charge holds, a line for each trial, as lines for the terminal.
 *
 * in: comparison; trials of it; style
 * out: lines of at most 100 characters
 */
function claimTable(comparison: Comparison, trials: readonly ComparedTrial[], style: Paint): string[] {
  const { spots, southern } = comparison;
  const part = (count: number, all: number) => `${count}/${all}`;
  const percent = (share: number) => (Number.isNaN(share) ? '-' : `${fixed(100 * share, 0)}%`);
  const sunOf = (trial: ComparedTrial) =>
    spots.find((spot) => spot.spot === trial.spot && spot.scenario === trial.scenario)?.limits?.beamShare ??
    Number.NaN;
  const columns: TextColumn<ComparedTrial>[] = [
    { heading: ['', ''], cell: (trial) => trialName(trial, comparison) },
    { heading: ['winter', 'sun'], cell: (trial) => percent(sunOf(trial)) },
    { heading: ['filled', 'in h'], cell: ({ claim }) => fixed(claim.fill_h, 1) },
    { heading: ['full', 'evenings'], cell: ({ claim: { year } }) => part(year.full, year.evenings) },
    {
      heading: southern ? ['Jun-', 'Aug'] : ['Dec-', 'Feb'],
      cell: ({ claim: { winter } }) => part(winter.full, winter.evenings),
    },
    { heading: ['middle', 'evening'], cell: ({ claim }) => percent(claim.winter.medianShare) },
    { heading: ['months', 'held'], cell: ({ claim }) => part(claim.monthsHeld, claim.monthsKnown) },
    { heading: ['in', 'winter'], cell: ({ claim }) => HOLDS[claim.inWinter] },
  ];
  return [
    ...style.wrap(CLAIM).map(style.strong),
    ...textTable(columns, trials, style.columns),
    ...style.wrap(
      'winter sun: share of the direct sun of the unshaded cell that the spot gets in the two darkest months; in full shade 0. filled ' +
        'in: hours of full sun from the cut-off to full, few where the cell is oversized. middle evening: energy above ' +
        'the cut-off at dusk, of the three dark months.',
      2,
    ),
  ];
}
