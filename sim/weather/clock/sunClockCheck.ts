import { extent, maxIndex, mean } from 'd3-array';
import { IANAZone } from 'luxon';
import { sampleCorrelation } from 'simple-statistics';
import { DAY_MS } from '../../common/time.ts';
import { checkSiteBySun, type SiteReading } from './checkSiteBySun.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { type ClockSegment, findSegments, placeSegments, type Segment } from './findSegments.ts';
import { type DaylightSaving, fitDaylightSaving } from './fitDaylightSaving.ts';
import { type FoldedDays, foldSeries, type SunSeries } from './foldSeries.ts';
import { clearAt, wrapped } from './negativeLogLikelihood.ts';

/** Everything the sun says about a series. */
export interface SunClockCheck {
  /**
   * How the stamps run: 'one clock' throughout; 'summer time' of a zone (`daylightSaving`); 'true solar time';
   * 'changes' of another kind (`segments`).
   */
  pattern: 'one clock' | 'summer time' | 'true solar time' | 'changes';
  /**
   * The offset: of the whole series for 'one clock', of standard time for 'summer time', of mean time at the zeros of
   * the equation of time for 'true solar time', of the longest stretch for 'changes'.
   */
  reading: ClockReading;
  segments: ClockSegment[];
  daylightSaving?: DaylightSaving;
  /** Sides of the night on which the record stops at a time of its clock while the sun is up. */
  stops: FoldedDays['stops'];
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
function honest(reading: ClockReading, evidence: ClockEvidence, stops: FoldedDays['stops']): ClockReading {
  const ends_min = Math.abs(evidence.firstLightLate_min - evidence.lastLightEarly_min);
  const uncertainty_min = Math.hypot(
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
  const days = foldSeries(series);
  const all = Array.from(days.day_ms.keys());
  const segments = findSegments(days);
  const found = pattern(series, days, all, segments);
  return {
    ...found,
    reading: honest(found.reading, found.evidence, days.stops),
    stops: days.stops,
    segments:
      found.daylightSaving === undefined
        ? placeSegments(series, days, segments)
        : seasons(days, found.daylightSaving),
    site: checkSiteBySun(days, series),
    usableDays: days.usableDays,
    daysUsed: all.length,
  };
}

type Found = Pick<SunClockCheck, 'pattern' | 'reading' | 'daylightSaving' | 'evidence'>;

function pattern(series: SunSeries, days: FoldedDays, all: readonly number[], segments: Segment[]): Found {
  const evidenceOf = (offsetOfDay: (d: number) => number): ClockEvidence =>
    clockEvidence(days, Float64Array.from(all, offsetOfDay));
  const trueSolar = estimateClockOffset(days, all, { dayShift_min: days.equationOfTime_min });
  const parts = segments.reduce((sum, segment) => sum + segment.reading.cost, 0);
  const penalisedParts = parts + EXPLANATION_COST * Math.max(0, segments.length - 1);
  // Told from mean time only where the equation of time moves enough in the days there are.
  const [least = 0, most = 0] = extent(days.equationOfTime_min);
  const trueSolarWins =
    most - least > LEAST_EQUATION_MIN && penalisedParts - trueSolar.cost > EXPLANATION_COST;
  const daylightSaving =
    trueSolarWins || segments.length > 1
      ? fitDaylightSaving(days, series.longitude_deg, series.step_s)
      : undefined;
  const { cost, offset_min } = daylightSaving?.standard ?? { cost: Number.POSITIVE_INFINITY, offset_min: 0 };
  if (trueSolarWins && cost >= trueSolar.cost) {
    const evidence = evidenceOf((d) => trueSolar.offset_min + days.equationOfTime_min[d]!);
    return { pattern: 'true solar time', reading: trueSolar, evidence };
  }
  if (daylightSaving !== undefined && cost < penalisedParts) {
    const evidence = evidenceOf((d) => offset_min + daylightSaving.shift_min[d]!);
    return { pattern: 'summer time', reading: daylightSaving.standard, daylightSaving, evidence };
  }
  if (segments.length <= 1) {
    const reading = segments[0]?.reading ?? estimateClockOffset(days, all);
    return { pattern: 'one clock', reading, evidence: evidenceOf(() => reading.offset_min) };
  }
  const offsets = new Float64Array(all.length);
  for (const { first, last, reading } of segments) offsets.fill(reading.offset_min, first, last + 1);
  const longest = segments[maxIndex(segments, ({ first, last }) => last - first)]!;
  return { pattern: 'changes', reading: longest.reading, evidence: evidenceOf((d) => offsets[d]!) };
}

/** The stretches of standard and summer time, to the day by the rules of the zone found. */
function seasons(days: FoldedDays, { zone, zoneOffset_min, standard }: DaylightSaving): ClockSegment[] {
  const rules = IANAZone.create(zone);
  const list: ClockSegment[] = [];
  let before = Number.NaN;
  const last_ms = days.day_ms.at(-1) ?? Number.NEGATIVE_INFINITY;
  for (let day_ms = days.day_ms[0]!; day_ms <= last_ms; day_ms += DAY_MS) {
    const shift = rules.offset(day_ms + DAY_MS / 2) - zoneOffset_min;
    if (shift !== before) {
      const reading = { ...standard, offset_min: wrapped(standard.offset_min + shift) };
      list.push({ firstDay_ms: day_ms, lastDay_ms: day_ms, reading });
      before = shift;
    }
    list.at(-1)!.lastDay_ms = day_ms;
  }
  return list;
}

/** What can be shown for a reading of the clock. NaN where the days hold nothing to judge by. */
interface ClockEvidence {
  /** Correlation of each value with the one at the mirrored solar time of its day, -1 to 1. */
  mirror: number;
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

/**
 * The evidence for an offset of the stamps: mirror and clear-sky correlation (dimensionless), light in the dark and
 * dark in the light (shares), first and last light (minutes).
 *
 * in: days, as folded; offset_min of each day, stamp minus middle of the interval
 * out: the evidence; both light times are near zero, and alike, at the right offset
 * NaN when: no light, or no pairs to correlate
 */
function clockEvidence(days: FoldedDays, offset_min: Float64Array): ClockEvidence {
  const mirrored: Pair[] = [];
  const clearSky: Pair[] = [];
  let light = 0;
  let lightDown = 0;
  let up = 0;
  let dark = 0;
  const late_min: number[] = [];
  const early_min: number[] = [];
  const threshold = 2 * days.grain_W_m2;
  for (let d = 0; d < days.day_ms.length; d++) {
    const samples: { solar_min: number; ghi: number; expected: number }[] = [];
    for (let i = days.dayFirst[d]!; i < days.dayFirst[d + 1]!; i++) {
      const solar_min = (days.phase_min[i]! - offset_min[d]! + 2880) % 1440;
      const clear = clearAt(days.clearDays[days.clearIndex[i]!]!, solar_min);
      const ghi = days.ghi_W_m2[i]!;
      const expected = clear * days.clearness[i]!;
      samples.push({ solar_min, ghi, expected });
      clearSky.push([ghi, expected]);
      light += ghi;
      if (clear < TWILIGHT_W_M2) lightDown += ghi;
      if (clear > 100) {
        up++;
        if (ghi < days.grain_W_m2) dark++;
      }
    }
    samples.sort((a, b) => a.solar_min - b.solar_min);
    mirrored.push(...mirrorPairs(samples));
    const lit = samples.filter(({ ghi }) => ghi > threshold);
    const expected = samples.filter((sample) => sample.expected > threshold);
    if (lit.length === 0 || expected.length === 0) continue;
    late_min.push(lit[0]!.solar_min - expected[0]!.solar_min);
    early_min.push(expected.at(-1)!.solar_min - lit.at(-1)!.solar_min);
  }
  return {
    mirror: correlation(mirrored),
    clearSkyFit: correlation(clearSky),
    lightWithSunDown: lightDown / light,
    darkWithSunUp: dark / up,
    firstLightLate_min: mean(late_min) ?? Number.NaN,
    lastLightEarly_min: mean(early_min) ?? Number.NaN,
  };
}

type Pair = readonly [number, number];

/** Each value in the light with the value at the mirrored time, drawn straight between its neighbours. */
function mirrorPairs(samples: readonly { solar_min: number; ghi: number }[]): Pair[] {
  return samples.flatMap((sample): Pair[] => {
    const wanted = 1440 - sample.solar_min;
    const after = samples.findIndex((other) => other.solar_min >= wanted);
    if (after < 1) return [];
    const low = samples[after - 1]!;
    const high = samples[after]!;
    const part = (wanted - low.solar_min) / (high.solar_min - low.solar_min);
    const mirror = low.ghi + part * (high.ghi - low.ghi);
    return sample.ghi > 0 || mirror > 0 ? [[sample.ghi, mirror]] : [];
  });
}

function correlation(pairs: readonly Pair[]): number {
  if (pairs.length < 2) return Number.NaN;
  const [x, y] = [0, 1].map((side) => pairs.map((pair) => pair[side]!));
  return sampleCorrelation(x!, y!);
}
