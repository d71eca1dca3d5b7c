import { getTimes } from 'suncalc';
import { civilOffset, dateText } from '../common/civilTime.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { Site } from './Site.ts';
import { geometricAltitude, solarPosition } from './solarPosition.ts';

/**
 * The nights of a stretch of time at a site. Night k runs from solar noon `noon_ms[k]` to `noon_ms[k + 1]` and
 * belongs to the civil date of its evening. All instants are UTC milliseconds.
 */
export interface NightCalendar {
  /** Number of nights touched by the record, the first and last perhaps in part. */
  count: number;
  /** count + 1 solar noons. */
  noon_ms: Float64Array;
  /** Sun's centre sinks through 6 degrees below the horizon; solar noon where it never rises above that. */
  dusk_ms: Float64Array;
  /** Sun's centre rises through 6 degrees below the horizon; the next solar noon where it never rises above that. */
  dawn_ms: Float64Array;
  /** 1 where the sun sinks to 6 degrees below the horizon, 0 for a white night: nothing can be promised then. */
  hasNight: Uint8Array;
  /** Civil date of the evening in the site's zone, 'YYYY-MM-DD'. */
  eveningDate: string[];
  /** 1 where the record holds the whole night from noon to noon. */
  complete: Uint8Array;
}

/** Dusk and dawn: geometric altitude of the sun's centre. */
const DUSK_ALTITUDE_DEG = -6;

/**
 * The nights that a stretch of hours touches at a site, from solar noon to solar noon, instants in UTC milliseconds.
 * A night the sun does not sink to 6 degrees below the horizon has dusk and dawn at its lowest sun; where the sun does
 * not rise above that, dusk and dawn are the noons.
 *
 * in: start_ms, start of the first hour, UTC milliseconds; countHours; site
 * out: as the type says, no NaN at any latitude; every night touched, the first perhaps begun before the record
 * valid: 1900 to 2150; dusk and dawn to a second of the sun's computed place
 * source: Meeus1998 through `solarPosition`; the instants by bisection on the geometric altitude
 */
export function nightCalendar(start_ms: number, countHours: number, site: Site): NightCalendar {
  const end_ms = start_ms + countHours * HOUR_MS;
  const noons = noonsAround(start_ms, end_ms, site);
  const count = noons.length - 1;
  const calendar: NightCalendar = {
    count,
    noon_ms: Float64Array.from(noons),
    dusk_ms: new Float64Array(count),
    dawn_ms: new Float64Array(count),
    hasNight: new Uint8Array(count),
    eveningDate: [],
    complete: new Uint8Array(count),
  };
  const offset = civilOffset(site.timeZone);
  const aboveDusk_deg = (ms: number) =>
    geometricAltitude(solarPosition(ms, site.latitude_deg, site.longitude_deg).altitude_deg) -
    DUSK_ALTITUDE_DEG;
  for (let k = 0; k < count; k++) {
    const noon = noons[k]!;
    const nextNoon = noons[k + 1]!;
    const middle = (noon + nextNoon) / 2;
    const lowest = aboveDusk_deg(middle) <= 0 ? middle : momentOfLeast(aboveDusk_deg, noon, nextNoon);
    const dark = aboveDusk_deg(lowest) <= 0;
    calendar.hasNight[k] = dark ? 1 : 0;
    calendar.dusk_ms[k] = dark ? crossing(aboveDusk_deg, noon, lowest) : lowest;
    calendar.dawn_ms[k] = dark ? crossing(aboveDusk_deg, nextNoon, lowest) : lowest;
    calendar.complete[k] = noon >= start_ms && nextNoon <= end_ms ? 1 : 0;
    const evening_ms = noon + DAY_MS / 4;
    calendar.eveningDate.push(dateText(evening_ms + offset(evening_ms) * 60_000));
  }
  return calendar;
}

/** Solar noons from the last one at or before the start to the first one at or after the end. */
function noonsAround(start_ms: number, end_ms: number, site: Site): number[] {
  const noons: number[] = [];
  for (let day = start_ms - 2 * DAY_MS; noons.length === 0 || noons.at(-1)! < end_ms; day += DAY_MS) {
    const noon = getTimes(new Date(day), site.latitude_deg, site.longitude_deg).solarNoon.getTime();
    if (noon <= start_ms) noons.length = 0;
    noons.push(noon);
  }
  return noons;
}

/** Moment of the lowest sun between two noons, to a second, by golden section. */
function momentOfLeast(height: (ms: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = from;
  let high = to;
  while (high - low > 1000) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    if (height(left) < height(right)) high = right;
    else low = left;
  }
  return Math.round((low + high) / 2);
}

/**
 * Moment where the height passes zero between a high and a low sun, to a millisecond; the high sun's own if it is at or
 * below zero. By straight lines, an end that stays twice drawn nearer (Illinois rule).
 */
function crossing(height: (ms: number) => number, high: number, low: number): number {
  // a, b: whole milliseconds with the crossing between them; the height is known to a millisecond of time
  let a = Math.floor(Math.min(high, low));
  let b = Math.floor(Math.max(high, low));
  let atA = height(a);
  let atB = height(b);
  if ((high < low ? atA : atB) <= 0) return high;
  let moved = 0;
  while (b - a > 1) {
    const guess = Math.round(a - (atA * (b - a)) / (atB - atA));
    const between = Math.min(Math.max(guess, a + 1), b - 1);
    const there = height(between);
    if (there > 0 === atA > 0) {
      a = between;
      atA = there;
      if (moved === 1) atB /= 2;
      moved = 1;
    } else {
      b = between;
      atB = there;
      if (moved === -1) atA /= 2;
      moved = -1;
    }
  }
  return b;
}

/**
 * The dark months, by number: October to March north of the equator, April to September south of it. A winter that is
 * decided anywhere is decided in them.
 *
 * in: latitude_deg, north positive
 * out: months of the year, 1 to 12, in their order
 */
function darkMonths(latitude_deg: number): readonly number[] {
  return latitude_deg < 0 ? [4, 5, 6, 7, 8, 9] : [10, 11, 12, 1, 2, 3];
}

/** Days that may lack at either end of the dark months: exports are cut by other clocks, and nothing is decided there. */
const LACKING_DAYS = 3;

/**
 * The days that must be there for a winter's dark months to be there, UTC milliseconds.
 *
 * in: year in which the dark months begin; latitude_deg, north positive
 * out: from the first of these days to the end of the last
 */
export function darkSeason(year: number, latitude_deg: number): { from_ms: number; to_ms: number } {
  const months = darkMonths(latitude_deg);
  return {
    from_ms: Date.UTC(year, months[0]! - 1, 1 + LACKING_DAYS),
    to_ms: Date.UTC(year, months[0]! - 1 + months.length, 1 - LACKING_DAYS),
  };
}

/**
 * Name of the winter a night belongs to: '2024/25' north of the equator (July to June), '2025' south of it
 * (January to December).
 *
 * in: eveningDate, civil date of the evening, 'YYYY-MM-DD'; latitude_deg, north positive
 * out: the name
 * @example winterOf('2024-12-21', 54); // => '2024/25'
 */
export function winterOf(eveningDate: string, latitude_deg: number): string {
  const year = Number(eveningDate.slice(0, 4));
  if (latitude_deg < 0) return String(year);
  const first = Number(eveningDate.slice(5, 7)) >= 7 ? year : year - 1;
  return `${first}/${String((first + 1) % 100).padStart(2, '0')}`;
}
