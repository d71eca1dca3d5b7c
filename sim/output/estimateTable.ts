import type { Estimate } from '../common/Estimate.ts';
import { type Paint, textTable } from './textTable.ts';
import { shortNumber } from './words.ts';

/**
 * Estimates with their intervals, and beside them what would be taken without.
 *
 * in: estimates; style
 * out: lines; none without estimates
 */
export function estimateTable(estimates: readonly Estimate[], style: Paint): string[] {
  if (estimates.length === 0) return [];
  return textTable(
    [
      { heading: ['', ''], cell: ({ what }: Estimate) => what },
      {
        heading: ['', 'found'],
        cell: ({ value, unit }) => `${shortNumber(value)}${unit === '' ? '' : ` ${unit}`}`,
      },
      { heading: ['90 percent', 'interval'], cell: interval },
      {
        heading: ['without', 'readings'],
        cell: ({ datasheet }) => (datasheet === undefined ? '' : shortNumber(datasheet)),
      },
    ],
    estimates,
    style.columns,
  );
}

function interval({ low, high }: Estimate): string {
  if (high === Number.POSITIVE_INFINITY) return `at least ${shortNumber(low)}`;
  if (low === 0) return `at most ${shortNumber(high)}`;
  return low === high ? 'as read' : `${shortNumber(low)} to ${shortNumber(high)}`;
}
