import { IANAZone } from 'luxon';
import { DAY_MS } from '../../common/time.ts';
import { checkSiteBySun, type SiteReading } from './checkSiteBySun.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import { findSegments, placeChange, type Segment } from './findSegments.ts';
import { type DaylightSaving, fitDaylightSaving } from './fitDaylightSaving.ts';
import { type FoldedDays, foldSeries, type SunSeries } from './foldSeries.ts';
import { CLEAR_STEP_MIN, wrapped } from './negativeLogLikelihood.ts';

/** A stretch of the series under one convention of stamps. */
interface ClockSegment {
  /** Start of its first and of its last day by the stamps, UTC milliseconds, to a day or two. */
  firstDay_ms: number;
  lastDay_ms: number;
  reading: ClockReading;
}

/** Everything the sun says about a series. */
export interface SunClockCheck {
  /**
   * How the stamps run: 'one clock' throughout; 'summer time' of a zone (`daylightSaving`); 'true solar time';
   * 'changes' of another kind (`segments`).
   */
  pattern: 'one clock' | 'summer time' | 'true solar time' | 'changes';
  /** Mean time told apart from true solar time? Only where the equation of time moves enough in the days there are. */
  meanTime: 'yes' | 'no' | 'cannot tell';
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
        ? placed(series, days, segments)
        : seasons(days, found.daylightSaving),
    site: checkSiteBySun(days, series),
    usableDays: days.usableDays,
    daysUsed: all.length,
  };
}

type Found = Pick<SunClockCheck, 'pattern' | 'meanTime' | 'reading' | 'daylightSaving' | 'evidence'>;

function pattern(series: SunSeries, days: FoldedDays, all: readonly number[], segments: Segment[]): Found {
  const evidenceOf = (offsetOfDay: (d: number) => number): ClockEvidence =>
    clockEvidence(days, Float64Array.from(all, offsetOfDay));
  const trueSolar = estimateClockOffset(days, all, { dayShift_min: days.equationOfTime_min });
  const parts = segments.reduce((sum, segment) => sum + segment.reading.cost, 0);
  const penalisedParts = parts + EXPLANATION_COST * Math.max(0, segments.length - 1);
  const better = penalisedParts - trueSolar.cost;
  const equations = all.map((d) => days.equationOfTime_min[d]!);
  const told = Math.max(...equations) - Math.min(...equations) > 8;

  const trueSolarWins = told && better > EXPLANATION_COST;
  const daylightSaving =
    trueSolarWins || segments.length > 1
      ? fitDaylightSaving(days, series.longitude_deg, series.step_s)
      : undefined;
  if (trueSolarWins && !(daylightSaving !== undefined && daylightSaving.standard.cost < trueSolar.cost)) {
    const evidence = evidenceOf((d) => trueSolar.offset_min + days.equationOfTime_min[d]!);
    return { pattern: 'true solar time', meanTime: 'no', reading: trueSolar, evidence };
  }
  const meanTime = told && (better < -EXPLANATION_COST || trueSolarWins) ? 'yes' : 'cannot tell';
  if (daylightSaving !== undefined && daylightSaving.standard.cost < penalisedParts) {
    const reading = daylightSaving.standard;
    const evidence = evidenceOf((d) => reading.offset_min + daylightSaving.shift_min[d]!);
    return { pattern: 'summer time', meanTime, reading, daylightSaving, evidence };
  }
  if (segments.length <= 1) {
    const reading = segments[0]?.reading ?? estimateClockOffset(days, all);
    return { pattern: 'one clock', meanTime, reading, evidence: evidenceOf(() => reading.offset_min) };
  }
  const offsets = new Float64Array(all.length);
  for (const { first, last, reading } of segments) offsets.fill(reading.offset_min, first, last + 1);
  const evidence = evidenceOf((d) => offsets[d]!);
  const length = (segment: Segment): number => segment.last - segment.first;
  const longest = segments.reduce((best, next) => (length(next) > length(best) ? next : best));
  return { pattern: 'changes', meanTime, reading: longest.reading, evidence };
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

/** Segments with the days of their changes looked for among all days, where the series was thinned. */
function placed(series: SunSeries, days: FoldedDays, segments: Segment[]): ClockSegment[] {
  const list = segments.map(({ first, last, reading }) => ({
    firstDay_ms: days.day_ms[first]!,
    lastDay_ms: days.day_ms[last]!,
    reading,
  }));
  if (days.day_ms.length === days.usableDays) return list;
  for (let k = 0; k + 1 < list.length; k++) {
    const change = placeChange(series, list[k]!, list[k + 1]!);
    list[k]!.lastDay_ms = change.lastDay_ms;
    list[k + 1]!.firstDay_ms = change.firstDay_ms;
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
  const mirrored = new Correlation();
  const clearSky = new Correlation();
  let light = 0;
  let lightDown = 0;
  let up = 0;
  let dark = 0;
  let lateSum = 0;
  let earlySum = 0;
  let lightDays = 0;
  const threshold = 2 * days.grain_W_m2;
  for (let d = 0; d < days.day_ms.length; d++) {
    const samples: { solar_min: number; ghi: number; expected: number }[] = [];
    for (let i = days.dayFirst[d]!; i < days.dayFirst[d + 1]!; i++) {
      const turned = (days.phase_min[i]! - offset_min[d]! + 2880) % 1440;
      const position = turned / CLEAR_STEP_MIN;
      const low = Math.floor(position);
      const means = days.clearDays[days.clearIndex[i]!]!;
      const clear = means[low]! + (position - low) * (means[low + 1]! - means[low]!);
      const ghi = days.ghi_W_m2[i]!;
      samples.push({ solar_min: turned, ghi, expected: clear * days.clearness[i]! });
      clearSky.add(ghi, clear * days.clearness[i]!);
      light += ghi;
      if (clear < TWILIGHT_W_M2) lightDown += ghi;
      if (clear > 100) {
        up++;
        if (ghi < days.grain_W_m2) dark++;
      }
    }
    samples.sort((a, b) => a.solar_min - b.solar_min);
    addMirrored(mirrored, samples);
    const first = samples.findIndex((sample) => sample.ghi > threshold);
    const firstExpected = samples.findIndex((sample) => sample.expected > threshold);
    if (first < 0 || firstExpected < 0) continue;
    const last = samples.findLastIndex((sample) => sample.ghi > threshold);
    const lastExpected = samples.findLastIndex((sample) => sample.expected > threshold);
    lateSum += samples[first]!.solar_min - samples[firstExpected]!.solar_min;
    earlySum += samples[lastExpected]!.solar_min - samples[last]!.solar_min;
    lightDays++;
  }
  return {
    mirror: mirrored.value(),
    clearSkyFit: clearSky.value(),
    lightWithSunDown: lightDown / light,
    darkWithSunUp: dark / up,
    firstLightLate_min: lateSum / lightDays,
    lastLightEarly_min: earlySum / lightDays,
  };
}

/** Pairs each value in the light with the value at the mirrored time, drawn straight between its neighbours. */
function addMirrored(sums: Correlation, samples: { solar_min: number; ghi: number }[]): void {
  for (const sample of samples) {
    const wanted = 1440 - sample.solar_min;
    const after = samples.findIndex((other) => other.solar_min >= wanted);
    if (after < 1) continue;
    const low = samples[after - 1]!;
    const high = samples[after]!;
    const part = (wanted - low.solar_min) / (high.solar_min - low.solar_min);
    const mirror = low.ghi + part * (high.ghi - low.ghi);
    if (sample.ghi > 0 || mirror > 0) sums.add(sample.ghi, mirror);
  }
}

/** Running sums of a correlation. */
class Correlation {
  private count = 0;
  private x = 0;
  private y = 0;
  private xx = 0;
  private yy = 0;
  private xy = 0;

  add(x: number, y: number): void {
    this.count++;
    this.x += x;
    this.y += y;
    this.xx += x * x;
    this.yy += y * y;
    this.xy += x * y;
  }

  value(): number {
    const both = this.count * this.xy - this.x * this.y;
    return (
      both / Math.sqrt((this.count * this.xx - this.x * this.x) * (this.count * this.yy - this.y * this.y))
    );
  }
}
