import type { StampLabel } from '../recognise/DetectedFormat.ts';
import { wrapped } from './estimateClockOffset.ts';

/** Why a clock may well be off by so much. */
type ClockLikelihood =
  | 'right'
  | 'summer time'
  | 'civil time of the site'
  | 'whole hours'
  | 'half hours'
  | 'quarter hours';

/** One way to read the stamps that fits what the sun says. */
export interface StampReading {
  marks: StampLabel;
  /** How far the clock is ahead of the claimed one, minutes; a whole number of quarter hours. */
  clockAhead_min: number;
  likelihood: ClockLikelihood;
  /** Offset seen minus the one this reading gives, minutes. */
  misfit_min: number;
}

const ORDER: readonly ClockLikelihood[] = [
  'right',
  'summer time',
  'civil time of the site',
  'whole hours',
  'half hours',
  'quarter hours',
];
const MARKS: readonly StampLabel[] = ['start', 'middle', 'end'];
const FARTHEST_MIN = 840;

/**
 * Every pair of interval mark and clock error (whole quarter hours, in minutes) that explains an offset: a mark at
 * the end with a right clock and a mark at the start with a clock an hour ahead give the same bytes.
 *
 * in: offset_min, stamp minus middle of the interval; step_s, length of the interval; options: tolerance_min (10 by
 *   default), siteZone_min, minutes by which the site's civil time is ahead of the claimed clock
 * out: all pairs within the tolerance, the likeliest first; then by misfit
 * @example explainingPairs(30, 3600)[0].marks; // => 'end'
 */
export function explainingPairs(
  offset_min: number,
  step_s: number,
  { tolerance_min = 10, siteZone_min }: { tolerance_min?: number; siteZone_min?: number } = {},
): StampReading[] {
  const pairs: StampReading[] = [];
  for (const marks of MARKS) {
    for (let clock = -FARTHEST_MIN; clock <= FARTHEST_MIN; clock += 15) {
      // The sun does not see whole days.
      const misfit = wrapped(offset_min - offsetOf(marks, clock, step_s));
      if (Math.abs(misfit) > tolerance_min) continue;
      pairs.push({
        marks,
        clockAhead_min: clock,
        likelihood: likelihoodOf(clock, siteZone_min),
        misfit_min: misfit,
      });
    }
  }
  const rank = (pair: StampReading): number => ORDER.indexOf(pair.likelihood);
  return pairs.sort(
    (a, b) =>
      rank(a) - rank(b) ||
      Math.abs(a.misfit_min) - Math.abs(b.misfit_min) ||
      Math.abs(a.clockAhead_min) - Math.abs(b.clockAhead_min),
  );
}

function likelihoodOf(clock_min: number, siteZone_min: number | undefined): ClockLikelihood {
  if (clock_min === 0) return 'right';
  const fromSite = siteZone_min === undefined ? Number.NaN : clock_min - siteZone_min;
  if (fromSite === 0 || fromSite === 60) return 'civil time of the site';
  if (Math.abs(clock_min) === 60) return 'summer time';
  if (clock_min % 60 === 0) return 'whole hours';
  return clock_min % 30 === 0 ? 'half hours' : 'quarter hours';
}

/** Stamp minus middle of the interval, minutes, of a mark and a clock that is ahead. in: step_s, the interval */
export function offsetOf(marks: StampLabel, clockAhead_min: number, step_s: number): number {
  const half = step_s / 120;
  return (marks === 'start' ? -half : marks === 'end' ? half : 0) + clockAhead_min;
}
