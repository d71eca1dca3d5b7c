import { cross, range, sort } from 'd3-array';
import { FixedOffsetZone } from 'luxon';
import type { DetectedFormat, StampLabel, ZoneClaim } from '../recognise/DetectedFormat.ts';
import { isYearless } from '../recognise/findStamps.ts';
import { wrapped } from './negativeLogLikelihood.ts';
import type { SunClockCheck } from './sunClockCheck.ts';

/** Why a clock may well be off by so much, the likeliest first. */
const LIKELIHOODS = ['right', 'summer time', 'whole hours', 'half hours', 'quarter hours'] as const;
const MARKS: readonly StampLabel[] = ['start', 'middle', 'end'];
const FARTHEST_MIN = 840;

/** One way to read the stamps that fits what the sun says. */
export interface StampReading {
  marks: StampLabel;
  /** How far the clock is ahead of the claimed one, minutes; a whole number of quarter hours. */
  clockAhead_min: number;
  likelihood: (typeof LIKELIHOODS)[number];
  /** Offset seen minus the one this reading gives, minutes. */
  misfit_min: number;
}

/**
 * Every pair of interval mark and clock error (whole quarter hours, in minutes) that explains an offset: a mark at
 * the end with a right clock and a mark at the start with a clock an hour ahead give the same bytes.
 *
 * in: offset_min, stamp minus middle of the interval; step_s, length of the interval; tolerance_min
 * out: all pairs within the tolerance, the likeliest first; then by misfit, to a millionth of a minute; then the clock
 *   that is less off
 * @example explainingPairs(30, 3600)[0].marks; // => 'end'
 */
export function explainingPairs(offset_min: number, step_s: number, tolerance_min = 10): StampReading[] {
  const pairs = cross(MARKS, range(-FARTHEST_MIN, FARTHEST_MIN + 1, 15), (marks, clockAhead_min) => {
    // The sun does not see whole days.
    const misfit_min = wrapped(offset_min - offsetOf({ marks, clockAhead_min }, step_s));
    return { marks, clockAhead_min, likelihood: likelihoodOf(clockAhead_min), misfit_min };
  });
  return sort(
    pairs.filter(({ misfit_min }) => Math.abs(misfit_min) <= tolerance_min),
    ({ likelihood }) => LIKELIHOODS.indexOf(likelihood),
    ({ misfit_min }) => Math.round(Math.abs(misfit_min) * 1e6),
    ({ clockAhead_min }) => Math.abs(clockAhead_min),
  );
}

function likelihoodOf(clock_min: number): StampReading['likelihood'] {
  if (clock_min === 0) return 'right';
  if (Math.abs(clock_min) === 60) return 'summer time';
  if (clock_min % 60 === 0) return 'whole hours';
  return clock_min % 30 === 0 ? 'half hours' : 'quarter hours';
}

/** Stamp minus middle of the interval, minutes, of a mark and a clock that is ahead. in: step_s, the interval */
export function offsetOf(
  { marks, clockAhead_min }: Pick<StampReading, 'marks' | 'clockAhead_min'>,
  step_s: number,
): number {
  const half = step_s / 120;
  return (marks === 'start' ? -half : marks === 'end' ? half : 0) + clockAhead_min;
}

/**
 * What a file, or the user, says of its stamps, in words for reports and messages.
 *
 * in: what was understood of the stamps
 */
export function claimText({ zone, label }: Pick<DetectedFormat['stamp'], 'zone' | 'label'>): string {
  if (zone.kind === 'unstated' && label.label === undefined)
    return 'no word on the zone, nor on what stamps mark';
  const marks =
    label.label === undefined
      ? 'no word on what stamps mark'
      : `stamps at the ${label.label} of the interval`;
  return `${zoneText(zone)}, ${marks}`;
}

/** Which zone a clock keeps, in words. */
export function zoneText(zone: ZoneClaim): string {
  if (zone.kind === 'civil') return zone.zone;
  if (zone.kind !== 'fixed') return ZONE_WORDS[zone.kind];
  const { offset_min } = zone;
  return `UTC${offset_min === 0 ? '' : FixedOffsetZone.instance(offset_min).formatOffset(0, 'narrow')}`;
}

const ZONE_WORDS = {
  solar: 'true solar time',
  each: 'the offset each stamp states',
  unstated: 'no word on the zone',
} as const;

/** Ways to read the stamps, in words: 'at the end of the interval and a right clock, or at the start and a ...'. */
export function readingsText(readings: readonly StampReading[]): string {
  return readings
    .map(
      ({ marks, clockAhead_min }, i) =>
        `at the ${marks}${i === 0 ? ' of the interval' : ''} and a ${clockText(clockAhead_min)}`,
    )
    .join(', or ');
}

/** The options that say what the file does not, or says wrong, one text for each of the likeliest readings. */
export function typedFor(
  choices: readonly StampReading[],
  { zone, label }: DetectedFormat['stamp'],
): string[] {
  const standing_min = zone.kind === 'fixed' ? zone.offset_min : 0;
  const texts = likely(choices).map(({ marks, clockAhead_min }) => {
    const kept = zone.kind !== 'unstated' && clockAhead_min === 0;
    // Of a clock that keeps summer time, or states its offset with each stamp, no other zone is named by one number.
    if (!kept && ['civil', 'each', 'solar'].includes(zone.kind)) return '';
    const zoneWords = kept ? [] : [`--zone ${zoneTyped(standing_min + clockAhead_min)}`];
    return [...zoneWords, ...(label.label === marks ? [] : [`--marks ${marks}`])].join(' ');
  });
  return [...new Set(texts)].filter((text) => text !== '');
}

/** The readings worth naming: clocks off by whole hours, if there are any. */
export function likely(choices: readonly StampReading[]): StampReading[] {
  const wholeHours = choices.filter(({ clockAhead_min }) => clockAhead_min % 60 === 0);
  return (wholeHours.length > 0 ? wholeHours : choices).slice(0, 2);
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

/** What is to be said of a file that names another zone than its stamps are read by. */
export function zoneNotes({ zone }: Pick<DetectedFormat['stamp'], 'zone'>): string[] {
  return zone.against === undefined
    ? []
    : [`the file also names a zone that its stamps do not keep: ${zone.against}; read by: ${zone.words}`];
}

/** What is to be said of a file that does not say its year. */
export function yearNotes({ parts }: Pick<DetectedFormat['stamp'], 'parts'>): string[] {
  return isYearless(parts) ? ['no stamp says its year: read as hours of 2001, which is no leap year'] : [];
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
  return offset_min === 0 ? 'UTC' : FixedOffsetZone.instance(offset_min).formatOffset(0, 'short');
}

/** Where the middle of an interval lies, seen from its stamp. in: offset_min, stamp minus middle */
export function middleText(offset_min: number): string {
  if (offset_min === 0) return 'stamps are the middle of their intervals';
  return `the middle of an interval lies ${minutesText(Math.abs(offset_min))} ${offset_min < 0 ? 'after' : 'before'} its stamp`;
}
