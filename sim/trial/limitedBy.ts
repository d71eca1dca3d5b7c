import { max } from 'd3-array';
import type { SpotLimits } from '../spot/spotLimits.ts';
import type { LimitedBy } from './Comparison.ts';
import type { LampInSpot } from './lampInSpot.ts';

/** What takes less than this share does not count as what limits. */
const A_TENTH = 0.1;

/**
 * What holds a spot back most in the darkest months: the greatest of the shares that are lost one after the other to
 * its surroundings (beam or sky, whichever is more; sky too where dull days lose more than all days do), to dim light
 * on its lamps, and to leakage; 'season' where none of them reaches a tenth. Of several lamps the one that loses most
 * counts.
 *
 * in: limits of the spot, undefined where its surroundings are not known; dullShare, of light left on dull days; lamps
 *   in it
 * out: 'unknown' where the record has none of these months, or where the surroundings are not known and the lamps lose
 *   little
 */
export function limitedBy(
  limits: SpotLimits | undefined,
  dullShare: number,
  lamps: readonly LampInSpot[],
): LimitedBy {
  const most = (values: number[]) => max(values.filter((value) => !Number.isNaN(value))) ?? Number.NaN;
  const surroundings = limits === undefined || limits.mostLost === 'neither' ? 'sky' : limits.mostLost;
  const lost: [LimitedBy, number][] = [
    [surroundings, limits === undefined ? Number.NaN : 1 - limits.lightShare],
    ['sky', 1 - dullShare],
    ['dim-light', most(lamps.map((lamp) => lamp.unharvestedShare))],
    ['leakage', most(lamps.map((lamp) => lamp.leakageShare))],
  ];
  const known = lost.filter(([, share]) => !Number.isNaN(share));
  if (known.length === 0) return 'unknown';
  const [name, share] = known.reduce((greatest, one) => (one[1] > greatest[1] ? one : greatest));
  if (share >= A_TENTH) return name;
  return limits === undefined ? 'unknown' : 'season';
}
