import { minutesText } from '../clockWords.ts';
import type { ClockReading } from './ClockReading.ts';
import type { PlaceSlip } from './checkSiteBySun.ts';
import { wrapped } from './estimateClockOffset.ts';
import { explainingPairs, type StampMark, type StampReading } from './explainingPairs.ts';

/** What the sun says about a claim. */
export interface ClockJudgement {
  verdict: 'agrees' | 'disagrees' | 'undecided';
  /** Why, in words for a message. */
  because: string;
  /** Offset the claim gives, minutes; NaN where the claim does not say what the stamps mark. */
  claimed_min: number;
  /** Offset seen minus offset claimed, minutes. */
  offBy_min: number;
  /** All readings of the stamps that explain the offset seen, the likeliest first. */
  choices: StampReading[];
  /** The likeliest reading other than the claim, where the claim cannot stand. */
  proposed?: StampReading;
  /** Slips in the place that would make the claim right as it stands; none where it agrees. */
  slips: PlaceSlip[];
}

/** What is promised: a clock to ten minutes. */
const TOLERANCE_MIN = 10;
/** A claim within the tolerance stands up to this uncertainty: the next likely claim is half an hour away. */
const MOST_UNCERTAIN_MIN = 12;

/**
 * Lays what a file or a user claims about the stamps beside the offset read off the sun (minutes).
 *
 * in: reading; step_s, length of the interval; claim: marks, what the stamps are said to mark (an instantaneous
 *   value: 'middle'; undefined where nobody says), siteZone_min, see explainingPairs, slips of the place that the
 *   lengths of the days allow. Stamps are as after the
 *   claimed zone, so a right claim has a clock ahead by nothing
 * out: 'agrees' where the claim is within 10 minutes; 'disagrees' where the claim is off by more than 10 minutes and one uncertainty (four, where the reading itself
 *   is undecided), with the choices and a proposal; 'undecided' in between, and where nobody says what stamps mark
 */
export function judgeClock(
  reading: ClockReading,
  step_s: number,
  claim: { marks?: StampMark; siteZone_min?: number; slips?: readonly PlaceSlip[] } = {},
): ClockJudgement {
  const tolerance_min = Math.max(TOLERANCE_MIN, Math.min(30, 2 * reading.uncertainty_min));
  const choices = explainingPairs(reading.offset_min, step_s, {
    tolerance_min,
    ...(claim.siteZone_min === undefined ? {} : { siteZone_min: claim.siteZone_min }),
  });
  const sure = reading.verdict === 'decided';
  if (claim.marks === undefined) {
    return {
      verdict: 'undecided',
      because: 'nobody says whether the stamps mark the start, the middle or the end of the interval',
      claimed_min: Number.NaN,
      offBy_min: Number.NaN,
      choices,
      slips: [],
    };
  }
  const half = step_s / 120;
  const claimed_min = claim.marks === 'start' ? -half : claim.marks === 'end' ? half : 0;
  const offBy_min = wrapped(reading.offset_min - claimed_min);
  const common = { claimed_min, offBy_min, choices, slips: [] };
  const known = reading.secondModeWorseBy >= 3 && reading.uncertainty_min <= MOST_UNCERTAIN_MIN;
  if ((sure || known) && Math.abs(offBy_min) <= TOLERANCE_MIN) {
    return {
      ...common,
      verdict: 'agrees',
      because: `the sun agrees, to ${minutesText(reading.uncertainty_min)}`,
    };
  }
  const surely = TOLERANCE_MIN + (sure ? 1 : 4) * reading.uncertainty_min;
  if (Math.abs(offBy_min) > surely && reading.secondModeWorseBy >= 3) {
    const minutes = minutesText(Math.abs(offBy_min));
    const side = offBy_min > 0 ? 'later' : 'earlier';
    return {
      ...common,
      slips: (claim.slips ?? []).filter(
        (slip) => Math.abs(wrapped(slip.offset_min - claimed_min)) <= tolerance_min,
      ),
      verdict: 'disagrees',
      because: `the stamps are ${minutes} ${side} than the sun allows`,
      ...(choices[0] === undefined ? {} : { proposed: choices[0] }),
    };
  }
  const because = sure ? 'the difference is within the uncertainty' : reading.reason;
  return { ...common, verdict: 'undecided', because };
}
