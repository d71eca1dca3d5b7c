import { IANAZone } from 'luxon';
import { DAY_MS } from '../../common/time.ts';
import { type ClockReading, estimateClockOffset } from './estimateClockOffset.ts';
import type { FoldedDays } from './foldSeries.ts';
import { FIRST_LOOK, leastIndex, negativeLogLikelihood, wrapped } from './negativeLogLikelihood.ts';

/** Stamps that follow the civil time of a zone through its summer times. */
export interface DaylightSaving {
  /** The zone that fits best; of equals, one that leaves the stamps a plain mark, nearest to the site's own noon. */
  zone: string;
  /** Other tried zones that change their clocks on the same days. */
  alsoFits: string[];
  /** Offset while the zone keeps standard time. */
  standard: ClockReading;
  /** How far the clocks go forward, minutes. */
  forward_min: number;
  /** Standard time of the zone ahead of UTC, minutes. */
  zoneOffset_min: number;
  /** Civil time ahead of standard time on each folded day, minutes. */
  shift_min: Float64Array;
}

/** Zones whose costs differ by less than this are equals. */
const EQUAL_COST = 5;

/**
 * The civil time whose summer times explain the changes of a series best, with the offset (minutes) in its standard
 * time; undefined where no zone near the site changed its clocks in those days.
 *
 * in: days, as folded; longitude_deg, east positive; step_s, length of the interval
 * out: the best zone; the cost in its reading is to be compared with the cost of other explanations
 * valid: rules of the public zone database as luxon reads them
 */
export function fitDaylightSaving(
  days: FoldedDays,
  longitude_deg: number,
  step_s: number,
): DaylightSaving | undefined {
  const all = Array.from(days.day_ms.keys());
  const look = new Map<number, Float64Array>();
  const costAt = (shift_min: number): Float64Array => {
    const known = look.get(shift_min);
    if (known !== undefined) return known;
    const costs = negativeLogLikelihood(
      days,
      all,
      FIRST_LOOK.map((offset) => offset + shift_min),
    );
    look.set(shift_min, costs);
    return costs;
  };
  const width = FIRST_LOOK.length;
  let best: { cost: number; shift: Float64Array; zones: Candidate[] } | undefined;
  for (const zone of DAYLIGHT_ZONES) {
    const candidate = civilShift(zone, days.day_ms);
    if (Math.abs(candidate.standard_min - longitude_deg * 4) > FARTHEST_ZONE_MIN) continue;
    if (candidate.shift_min.every((value) => value === 0)) continue;
    const sums = new Float64Array(width);
    for (let d = 0; d < all.length; d++) {
      const costs = costAt(candidate.shift_min[d]!);
      for (let j = 0; j < width; j++) sums[j]! += costs[d * width + j]!;
    }
    const cost = sums[leastIndex(sums)]!;
    if (best === undefined || cost < best.cost - EQUAL_COST) {
      best = { cost, shift: candidate.shift_min, zones: [candidate] };
    } else if (cost <= best.cost + EQUAL_COST) {
      best.zones.push(candidate);
      if (cost < best.cost) best = { cost, shift: candidate.shift_min, zones: best.zones };
    }
  }
  if (best === undefined) return undefined;
  const standard = estimateClockOffset(days, all, { dayShift_min: best.shift });
  // Of equals, first those whose standard time, claimed or not, leaves the stamps a plain mark of the interval.
  const plain = (candidate: Candidate): number =>
    [0, candidate.standard_min].some((clock) =>
      [-step_s / 120, 0, step_s / 120].some(
        (mark) => Math.abs(wrapped(standard.offset_min - clock - mark)) <= 10,
      ),
    )
      ? 0
      : 1;
  const distance = (candidate: Candidate): number => Math.abs(candidate.standard_min - longitude_deg * 4);
  const zones = best.zones.toSorted((a, b) => plain(a) - plain(b) || distance(a) - distance(b));
  return {
    zone: zones[0]!.zone,
    alsoFits: zones.slice(1).map((candidate) => candidate.zone),
    standard,
    forward_min: Math.max(...best.shift),
    zoneOffset_min: zones[0]!.standard_min,
    shift_min: best.shift,
  };
}

interface Candidate {
  zone: string;
  standard_min: number;
  /** Civil time ahead of standard time on each day, minutes. */
  shift_min: Float64Array;
}

/** A zone's shift on each day: probed at the ends of runs of days, halved where they differ. */
function civilShift(zone: string, day_ms: Float64Array): Candidate {
  const rules = IANAZone.create(zone);
  const offset = new Float64Array(day_ms.length);
  const at = (d: number): number => rules.offset(day_ms[d]! + DAY_MS / 2);
  const fill = (low: number, high: number, first: number, last: number): void => {
    const near = day_ms[high]! - day_ms[low]! < 25 * DAY_MS;
    if (high - low <= 1) {
      offset[low] = first;
      offset[high] = last;
    } else if (near && first === last) {
      offset.fill(first, low, high + 1);
    } else {
      const middle = (low + high) >> 1;
      const between = at(middle);
      fill(low, middle, first, between);
      fill(middle, high, between, last);
    }
  };
  fill(0, day_ms.length - 1, at(0), at(day_ms.length - 1));
  const standard = offset.reduce((least, value) => Math.min(least, value), offset[0]!);
  return { zone, standard_min: standard, shift_min: offset.map((value) => value - standard) };
}

/** A zone's standard time may differ from the site's mean solar time by this much, minutes. */
const FARTHEST_ZONE_MIN = 165;
const MOST_NAMED = 3;

/**
 * Zones near a site whose clock shows a time twice, the nearest to its own noon first: what to try where a file has it
 * twice. in: wall_ms, milliseconds of the clock as if it were UTC; longitude_deg, east positive
 */
export function doublingZones(wall_ms: number, longitude_deg: number): string[] {
  const found: { zone: string; far_min: number }[] = [];
  for (const zone of DAYLIGHT_ZONES) {
    const rules = IANAZone.create(zone);
    const before = rules.offset(wall_ms - DAY_MS);
    const after = rules.offset(wall_ms + DAY_MS);
    const far_min = Math.abs(after - longitude_deg * 4);
    const twice = [before, after].every((offset) => rules.offset(wall_ms - offset * 60_000) === offset);
    if (before > after && twice && far_min <= FARTHEST_ZONE_MIN) found.push({ zone, far_min });
  }
  const byNoon = found.toSorted((a, b) => a.far_min - b.far_min);
  return byNoon.slice(0, MOST_NAMED).map(({ zone }) => zone);
}

/**
 * Zones whose civil time has a summer time in recent decades, one or more for each known rule and offset; names of
 * the public zone database. The clock check tries those near the site.
 */
const DAYLIGHT_ZONES: readonly string[] = [
  'Atlantic/Azores',
  'Europe/London',
  'Europe/Lisbon',
  'Europe/Dublin',
  'Europe/Berlin',
  'Europe/Paris',
  'Europe/Athens',
  'Europe/Helsinki',
  'Europe/Chisinau',
  'Europe/Istanbul',
  'Europe/Moscow',
  'Africa/Casablanca',
  'Africa/Tunis',
  'Africa/Cairo',
  'Africa/Windhoek',
  'Asia/Beirut',
  'Asia/Damascus',
  'Asia/Amman',
  'Asia/Jerusalem',
  'Asia/Gaza',
  'Asia/Baku',
  'Asia/Yerevan',
  'Asia/Tehran',
  'Asia/Yekaterinburg',
  'Asia/Novosibirsk',
  'Asia/Ulaanbaatar',
  'Asia/Vladivostok',
  'Australia/Perth',
  'Australia/Adelaide',
  'Australia/Sydney',
  'Australia/Hobart',
  'Australia/Lord_Howe',
  'Pacific/Norfolk',
  'Pacific/Auckland',
  'Pacific/Chatham',
  'Pacific/Fiji',
  'Pacific/Apia',
  'Pacific/Easter',
  'America/Adak',
  'America/Anchorage',
  'America/Los_Angeles',
  'America/Denver',
  'America/Chihuahua',
  'America/Chicago',
  'America/Mexico_City',
  'America/New_York',
  'America/Havana',
  'America/Port-au-Prince',
  'America/Halifax',
  'America/St_Johns',
  'America/Nuuk',
  'America/Santiago',
  'America/Asuncion',
  'America/Sao_Paulo',
  'America/Montevideo',
  'America/Argentina/Buenos_Aires',
];
