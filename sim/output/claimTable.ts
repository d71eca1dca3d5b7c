import { fixed } from '../common/csvText.ts';
import type { ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';
import { CLAIM } from './claimSentence.ts';
import { comparedName } from './comparedName.ts';
import type { Paint } from './paint.ts';
import { type TextColumn, textTable } from './textTable.ts';
import { wrapText } from './wrapText.ts';

const HOLDS: Readonly<Record<ChargeClaim['inWinter'], string>> = {
  holds: 'HOLDS',
  'in-part': 'IN PART',
  fails: 'FAILS',
  unknown: 'no winter',
};

const LONGEST_NAME = 38;

/**
 * How much of the claim of full charge holds, a line for each trial, as lines for the terminal.
 *
 * in: comparison; style
 * out: lines of at most 100 characters
 */
export function claimTable(comparison: Comparison, style: Paint): string[] {
  const { trials, spots, southern } = comparison;
  const part = (count: number, all: number) => `${count}/${all}`;
  const percent = (share: number) => (Number.isNaN(share) ? '-' : `${fixed(100 * share, 0)}%`);
  const sunOf = (trial: ComparedTrial) =>
    spots.find((spot) => spot.spot === trial.spot && spot.scenario === trial.scenario)?.limits?.beamShare ??
    Number.NaN;
  const nameOf = (trial: ComparedTrial) => {
    const name = `${trial.lamp} on ${comparedName(comparison, trial.scenario, trial.spot)}`;
    return name.length <= LONGEST_NAME ? name : `${name.slice(0, LONGEST_NAME - 3)}...`;
  };
  const columns: TextColumn<ComparedTrial>[] = [
    { heading: ['', ''], cell: nameOf },
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
    ...wrapText(CLAIM).map(style.strong),
    ...textTable(columns, trials),
    ...wrapText(
      'winter sun: share of the beam in the open that the spot gets in the two darkest months; in full shade 0. filled ' +
        'in: hours of full sun from the cut-off to full, few where the cell is oversized. middle evening: energy above ' +
        'the cut-off at dusk, of the three dark months.',
      2,
    ),
  ];
}
