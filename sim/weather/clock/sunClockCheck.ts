import { extent, greatest, least, mean, range, sum } from 'd3-array';
import { sampleCorrelation } from 'simple-statistics';
import { hypot } from '../../common/elementary/hypot.ts';
import { straightLines } from '../../common/numeric.ts';
import { checkSiteBySun, type SiteReading } from './checkSiteBySun.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { type ClockSegment, findSegments, placeSegments, type Segment } from './findSegments.ts';
import { fitDaylightSaving } from './fitDaylightSaving.ts';
import { type FoldedSeries, foldSeries, type SunSeries, shifted } from './foldSeries.ts';
import { CLEAR_STEP_MIN, firstLook } from './negativeLogLikelihood.ts';
import type { NightSide } from './stoppedHours.ts';

/** One way to explain the stamps of a series, and the cost of it. */
export interface Explanation {
  /**
   * How the stamps run: 'one clock' throughout; 'summer time' of a zone (`zone`); 'true solar time'; 'changes' of another
   * kind (`segments`).
   */
  pattern: 'one clock' | 'summer time' | 'true solar time' | 'changes';
  /**
   * The offset: of the whole series for 'one clock', of standard time for 'summer time', of mean time at the zeros of
   * the equation of time for 'true solar time', of the longest stretch for 'changes'.
   */
  reading: ClockReading;
  zone?: string;
  /** What the clock of each folded day is ahead of that, minutes. */
  shift_min: number[];
  cost: number;
}

/** Everything the sun says about a series. */
export interface SunClockCheck extends Pick<Explanation, 'pattern' | 'reading' | 'zone'> {
  /** Stretches between changes of the clock; one where there is none. */
  segments: ClockSegment[];
  /** Sides of the night on which the record stops at a time of its clock while the sun is up. */
  stops: NightSide[];
  site: SiteReading;
  evidence: ClockEvidence;
  /** Days with enough values, and how many of them were looked at. */
  usableDays: number;
  daysUsed: number;
}

/** Cost that an explanation with more freedom must save before it is accepted. */
const EXPLANATION_COST = 12;
const LEAST_EQUATION_MIN = 8;

/** Least standard uncertainty of a clock: a horizon on one side that leaves the sky's light moves it so much, minutes. */
const LEAST_UNCERTAINTY_MIN = 2;
/** Minutes for each unit of asymmetry: fog, cloud and shade that come on one side of noon. */
const BY_ASYMMETRY_MIN = 20;
/** Share of what first light is later than last light is early. */
const BY_ENDS = 0.25;
/** Of a record that stops at a time of its clock. */
const BY_STOP_MIN = 6;

/**
 * A reading whose standard uncertainty knows what the likelihood does not: that morning and evening are witnesses of
 * their own, of which shade, fog or a logger that stops reaches one. All figures measured on invented skies, so that
 * two standard uncertainties hold the truth in 95 of 100.
 */
function honest(reading: ClockReading, evidence: ClockEvidence, stops: readonly NightSide[]): ClockReading {
  const ends_min = Math.abs(evidence.firstLightLate_min - evidence.lastLightEarly_min);
  const uncertainty_min = hypot(
    reading.uncertainty_min,
    LEAST_UNCERTAINTY_MIN,
    BY_ASYMMETRY_MIN * reading.asymmetry,
    Number.isNaN(ends_min) ? 0 : BY_ENDS * ends_min,
    stops.length > 0 ? BY_STOP_MIN : 0,
  );
  return { ...reading, uncertainty_min };
}

/**
 * Asks the sun about a series: one number, stamp minus middle of the measured interval (minutes), with uncertainty
 * and evidence; where the convention changes within the series; whether the site can be right. An instantaneous
 * value has its stamp as its middle, so a right clock gives zero.
 *
 * in: series, stamps as claimed
 * out: all that was found; `reading.verdict` is 'undecided' where the data cannot tell
 * valid: steps of 10 seconds to 3 hours, latitudes -65 to 65, some days to decades; offsets are known to whole days
 *   only by the season, so a date off by one is not seen
 */
export function sunClockCheck(series: SunSeries): SunClockCheck {
  const folded = foldSeries(series);
  const { stops } = folded;
  const look = firstLook(folded);
  const segments = findSegments(folded, look);
  const explained = least(explanations(series, folded, look, segments), ({ cost }) => cost)!;
  const { pattern, reading, zone, shift_min } = explained;
  const evidence = clockEvidence(shifted(folded, shift_min), reading.offset_min);
  return {
    pattern,
    reading: honest(reading, evidence, stops),
    ...(zone === undefined ? {} : { zone }),
    evidence,
    stops,
    segments: placeSegments(series, folded, segments),
    site: checkSiteBySun(folded, series),
    usableDays: folded.allDays.length,
    daysUsed: folded.days.length,
  };
}

/** The ways to explain the stamps; each with as much cost as it has freedom. */
function explanations(
  series: SunSeries,
  folded: FoldedSeries,
  look: readonly Float64Array[],
  segments: readonly Segment[],
): Explanation[] {
  const longest = greatest(segments, ({ first, last }) => last - first);
  const reading = longest?.reading ?? estimateClockOffset(folded, look);
  const parts: Explanation = {
    pattern: segments.length > 1 ? 'changes' : 'one clock',
    reading,
    shift_min: segments.flatMap((part) =>
      new Array<number>(part.last - part.first + 1).fill(part.reading.offset_min - reading.offset_min),
    ),
    cost: sum(segments, (part) => part.reading.cost) + EXPLANATION_COST * Math.max(0, segments.length - 1),
  };
  const shift_min = folded.days.map(({ equationOfTime_min }) => equationOfTime_min);
  // Told from mean time only where the equation of time moves enough in the days there are.
  const [lowest = 0, highest = 0] = extent(shift_min);
  const all = [parts];
  if (highest - lowest > LEAST_EQUATION_MIN) {
    const solar = estimateClockOffset(shifted(folded, shift_min), look);
    const cost = solar.cost + EXPLANATION_COST;
    all.push({ pattern: 'true solar time', reading: solar, shift_min, cost });
  }
  if (segments.length <= 1 && all.every(({ cost }) => cost >= parts.cost)) return all;
  return [...all, fitDaylightSaving(folded, look, series) ?? []].flat();
}

/** What can be shown for a reading of the clock. NaN where the days hold nothing to judge by. */
export interface ClockEvidence {
  /** Correlation of the series with the clear sky at each day's own clearness, -1 to 1. */
  clearSkyFit: number;
  /** Share of all radiation that came while the sun was more than 2 degrees down. */
  lightWithSunDown: number;
  /** Share of the intervals with a clear sky above 100 W/m2 in which no light was measured. */
  darkWithSunUp: number;
  /** First light of the day behind what the sun and the day's clearness let expect, mean over the days, minutes. */
  firstLightLate_min: number;
  /** Last light ahead of what they let expect, mean over the days, minutes. */
  lastLightEarly_min: number;
}

/** Clear-sky light, averaged over the interval, that stands for a sun 2 degrees down. */
const TWILIGHT_W_M2 = 0.8;
const SUN_UP_W_M2 = 100;

/**
 * The evidence for an offset of the stamps: clear-sky correlation (dimensionless), light in the dark and dark in the
 * light (shares), first and last light (minutes).
 *
 * in: folded, days with the shifts of their clocks; offset_min, stamp minus middle of the interval
 * out: the evidence; both light times are near zero, and alike, at the right offset
 * NaN when: no light, or nothing to correlate
 */
function clockEvidence(folded: FoldedSeries, offset_min: number): ClockEvidence {
  const { grain_W_m2, phase_min, clearness, clearIndex } = folded;
  const clearDays = folded.clearDays.map(straightLines);
  const days = folded.days.map(({ first, end, shift_min }) =>
    range(first, end).map((i) => {
      const solar_min = (phase_min[i]! - offset_min - shift_min + 2880) % 1440;
      const clear_W_m2 = clearDays[clearIndex[i]!]!(solar_min / CLEAR_STEP_MIN);
      return { solar_min, clear_W_m2, lit: folded.ghi_W_m2[i]!, expected: clear_W_m2 * clearness[i]! };
    }),
  );
  const all = days.flat();
  const bright = all.filter(({ clear_W_m2 }) => clear_W_m2 > SUN_UP_W_M2);
  const lightDown = sum(all, ({ clear_W_m2, lit }) => (clear_W_m2 < TWILIGHT_W_M2 ? lit : 0));
  const ends = days.flatMap((samples) => {
    const timesOf = (what: 'lit' | 'expected') =>
      extent(samples, (sample) => (sample[what] > 2 * grain_W_m2 ? sample.solar_min : undefined));
    const [[first, last], [firstDue, lastDue]] = [timesOf('lit'), timesOf('expected')];
    const isLit = first !== undefined && firstDue !== undefined;
    return isLit ? { late_min: first - firstDue, early_min: lastDue - last } : [];
  });
  return {
    clearSkyFit:
      all.length < 2
        ? Number.NaN
        : sampleCorrelation(
            all.map(({ lit }) => lit),
            all.map(({ expected }) => expected),
          ),
    lightWithSunDown: lightDown / sum(all, ({ lit }) => lit),
    darkWithSunUp: bright.filter(({ lit }) => lit < grain_W_m2).length / bright.length,
    firstLightLate_min: mean(ends, ({ late_min }) => late_min) ?? Number.NaN,
    lastLightEarly_min: mean(ends, ({ early_min }) => early_min) ?? Number.NaN,
  };
}
