import { fixed } from '../common/csvText.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';

/** What is claimed, and by whom. */
export const CLAIM =
  'Claim tested (common practice, no source): an oversized cell in full shade charges its capacitor fully on an ordinary ' +
  'day, even in winter. Full: at dusk at least 90 percent of the energy that full sun on a day of 25 degC ' +
  'fills in. It holds for a month where the capacitor is full on at least half of the evenings.';

const HOLDS: Readonly<Record<ChargeClaim['inWinter'], string>> = {
  holds: 'HOLDS in winter too',
  'in-part': 'HOLDS IN PART of the winter',
  fails: 'DOES NOT HOLD in winter',
  unknown: 'no winter in the record',
};

/**
 * How much of the claim holds for one lamp in one spot: the dark months and the year.
 *
 * in: claim, as tested; southern
 * out: a sentence without its subject
 */
export function claimSentence(claim: ChargeClaim, southern: boolean): string {
  const { winter, year } = claim;
  const months = southern ? 'June to August' : 'December to February';
  const inWinter =
    winter.evenings === 0
      ? ''
      : `, ${winter.full} of ${winter.evenings} from ${months} (then ${fixed(100 * winter.medianShare, 0)} percent ` +
        'on the middle evening)';
  return (
    `${HOLDS[claim.inWinter]}: full on ${year.full} of ${year.evenings} evenings${inWinter}; holds in ` +
    `${claim.monthsHeld} of ${claim.monthsKnown} months. Full sun fills it in ${fixed(claim.fill_h, 1)} h to ${fixed(claim.full_V, 2)} V.`
  );
}
