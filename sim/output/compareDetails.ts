import { fixed } from '../common/csvText.ts';
import type { WinterOdds } from '../statistics/WinterOdds.ts';
import type { ComparedSpot, ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';
import { coarserSky } from '../trial/spotSkies.ts';
import { trialName } from './compareRows.ts';
import { CLAIM, trialsIn } from './limitSentence.ts';
import { moneyCells } from './moneyWords.ts';
import { nightCount, ofHundred } from './oddsWords.ts';
import { skyPictureText } from './skyPictureText.ts';
import { fitting, type Paint, type SideRow, sideBySide, type TextColumn, textTable } from './textTable.ts';
import { comparedName, monthName, shortDates } from './words.ts';

/**
 * Of trials of a comparison every number, a table for each lamp or spot; the claim in numbers; the sky from their spots.
 *
 * in: comparison; shown, trials of it; style
 * out: lines for the terminal
 */
export function compareDetails(
  comparison: Comparison,
  shown: readonly ComparedTrial[],
  style: Paint,
): string[] {
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

/** How much of the claim of full charge holds, a line for each trial, of at most 100 characters. */
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
