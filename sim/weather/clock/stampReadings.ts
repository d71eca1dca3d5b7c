import type { DetectedFormat, StampLabel } from '../recognise/DetectedFormat.ts';
import { wrapped } from './negativeLogLikelihood.ts';
import type { SunClockCheck } from './sunClockCheck.ts';

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

/**
 * What a file, or the user, says of its stamps, in words for reports and messages.
 *
 * in: what was understood of the stamps
 */
export function claimText({ zone, label }: Pick<DetectedFormat['stamp'], 'zone' | 'label'>): string {
  const zones = {
    fixed: () => (zone.kind === 'fixed' ? `UTC${offsetText(zone.offset_min)}` : ''),
    civil: () => (zone.kind === 'civil' ? zone.zone : ''),
    solar: () => 'true solar time',
    each: () => 'the offset each stamp states',
    unstated: () => 'no word on the zone',
  };
  const marks =
    label.label === undefined
      ? 'no word on what stamps mark'
      : `stamps at the ${label.label} of the interval`;
  if (zone.kind === 'unstated' && label.label === undefined)
    return 'no word on the zone, nor on what stamps mark';
  return `${zones[zone.kind]()}, ${marks}`;
}

/** Ways to read the stamps, in words: 'at the end of the interval and a right clock, or at the start and a ...'. */
export function readingsText(readings: readonly StampReading[]): string {
  return readings
    .map(
      ({ marks, clockAhead_min }, i) =>
        `at the ${marks}${i === 0 ? ' of the interval' : ''} and a ${clockText(clockAhead_min)}`,
    )
    .join(', or ');
}

/** Where stamps stand, by the sun, with the interval that holds it (two standard uncertainties). */
export function seenText({
  reading: { offset_min, uncertainty_min },
}: Pick<SunClockCheck, 'reading'>): string {
  const side = offset_min < 0 ? 'before' : 'after';
  return `stamps stand ${minutesText(Math.abs(offset_min))} ${side} the middle of the interval, to ${minutesText(2 * uncertainty_min)}`;
}

/** What is to be said of a record that stops at a time of its clock, a sentence for each side of the night. */
export function stopNotes({ stops }: Pick<SunClockCheck, 'stops'>): string[] {
  return stops.map((side) =>
    side === 'evening'
      ? 'the record stops at one time of its clock while the sun is still up: light after it counts as none'
      : 'the record begins at one time of its clock with the sun up already: light before it counts as none',
  );
}

/** How a clock stands: 'right clock', 'clock 60 minutes fast'. */
export function clockText(ahead_min: number): string {
  if (ahead_min === 0) return 'right clock';
  return `clock ${minutesText(Math.abs(ahead_min))} ${ahead_min > 0 ? 'fast' : 'slow'}`;
}

export function minutesText(minutes: number): string {
  const whole = Math.round(minutes);
  return `${whole} minute${Math.abs(whole) === 1 ? '' : 's'}`;
}

/** A fixed offset as it is typed: '+01:00', 'UTC'. */
export function zoneTyped(offset_min: number): string {
  if (offset_min === 0) return 'UTC';
  const size = Math.abs(offset_min);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${offset_min < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Where the middle of an interval lies, seen from its stamp. in: offset_min, stamp minus middle */
export function middleText(offset_min: number): string {
  if (offset_min === 0) return 'stamps are the middle of their intervals';
  return `the middle of an interval lies ${minutesText(Math.abs(offset_min))} ${offset_min < 0 ? 'after' : 'before'} its stamp`;
}

/** A place as it is typed. */
export function placeTyped(latitude_deg: number, longitude_deg: number): string {
  return `--place ${latitude_deg},${longitude_deg}`;
}

function offsetText(offset_min: number): string {
  if (offset_min === 0) return '';
  const size = Math.abs(offset_min);
  const minutes = size % 60 === 0 ? '' : `:${String(size % 60).padStart(2, '0')}`;
  return `${offset_min < 0 ? '-' : '+'}${Math.floor(size / 60)}${minutes}`;
}
