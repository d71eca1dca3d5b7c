import { least, min } from 'd3-array';
import { IANAZone } from 'luxon';
import { DAY_MS } from '../../common/time.ts';
import { estimateClockOffset } from './estimateClockOffset.ts';
import { type FoldedSeries, type SunSeries, shifted } from './foldSeries.ts';
import { shiftedLook, sumOfDays, wrapped } from './negativeLogLikelihood.ts';
import type { Explanation } from './sunClockCheck.ts';

/** Zones whose costs differ by less than this are equals. */
const EQUAL_COST = 5;
/** Stamps as near as this to a mark of the interval stand on it, minutes. */
const PLAIN_MIN = 10;

/**
 * The civil time whose summer times explain the changes of a series best, with the offset (minutes) in its standard
 * time; undefined where no zone near the site changed its clocks in those days.
 *
 * in: folded; look, the first look at its days; series, of which longitude and step are asked
 * out: the zone that fits best; of equals, one that leaves the stamps a plain mark, nearest to the site's own noon; the
 *   offset while it keeps standard time
 * valid: rules of the public zone database as luxon reads them; summer times of whole quarter hours
 */
export function fitDaylightSaving(
  folded: FoldedSeries,
  look: readonly Float64Array[],
  { longitude_deg, step_s }: Pick<SunSeries, 'longitude_deg' | 'step_s'>,
): Explanation | undefined {
  const far_min = ({ standard_min }: Candidate): number => Math.abs(standard_min - longitude_deg * 4);
  const days_ms = folded.days.map(({ ms }) => ms);
  const zones = DAYLIGHT_ZONES.map((zone) => civilShift(zone, days_ms))
    .filter((zone) => far_min(zone) <= FARTHEST_ZONE_MIN && zone.shift_min.some((value) => value !== 0))
    .map((zone) => ({ ...zone, cost: min(sumOfDays(shiftedLook(look, zone.shift_min)))! }));
  const best = least(zones, ({ cost }) => cost);
  if (best === undefined) return undefined;
  const { shift_min } = best;
  const reading = estimateClockOffset(shifted(folded, shift_min), look);
  // Of equals, first those whose standard time, claimed or not, leaves the stamps a plain mark of the interval.
  const isPlain = ({ standard_min }: Candidate): boolean =>
    [0, standard_min].some((clock_min) =>
      [-step_s / 120, 0, step_s / 120].some(
        (mark_min) => Math.abs(wrapped(reading.offset_min - clock_min - mark_min)) <= PLAIN_MIN,
      ),
    );
  const equals = zones.filter(({ cost }) => cost <= best.cost + EQUAL_COST);
  const plain = equals.filter(isPlain);
  const { zone } = least(plain.length > 0 ? plain : equals, far_min)!;
  return { pattern: 'summer time', zone, reading, shift_min, cost: reading.cost };
}

interface Candidate {
  zone: string;
  standard_min: number;
  /** Civil time ahead of standard time on each day, minutes. */
  shift_min: number[];
}

/** No zone changes its clocks there and back within so many days. */
const KEPT_DAYS = 14;

/** A zone's shift on each day; the zone is asked at the ends of fortnights, and day by day only where these differ. */
export function civilShift(zone: string, days_ms: readonly number[]): Candidate {
  const rules = IANAZone.create(zone);
  const at = (ms: number): number => rules.offset(ms + DAY_MS / 2);
  let kept = { offset_min: 0, until_ms: Number.NEGATIVE_INFINITY };
  const offset_min = days_ms.map((ms) => {
    if (ms > kept.until_ms) {
      const here = at(ms);
      const later_ms = ms + KEPT_DAYS * DAY_MS;
      kept = { offset_min: here, until_ms: at(later_ms) === here ? later_ms : ms };
    }
    return kept.offset_min;
  });
  const standard_min = min(offset_min) ?? 0;
  return { zone, standard_min, shift_min: offset_min.map((value) => value - standard_min) };
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
const DAYLIGHT_ZONES: readonly string[] = Object.entries({
  Atlantic: 'Azores',
  Europe: 'London Lisbon Dublin Berlin Paris Athens Helsinki Chisinau Istanbul Moscow',
  Africa: 'Casablanca Tunis Cairo Windhoek',
  Asia: 'Beirut Damascus Amman Jerusalem Gaza Baku Yerevan Tehran Yekaterinburg Novosibirsk Ulaanbaatar Vladivostok',
  Australia: 'Perth Adelaide Sydney Hobart Lord_Howe',
  Pacific: 'Norfolk Auckland Chatham Fiji Apia Easter',
  America:
    'Adak Anchorage Los_Angeles Denver Chihuahua Chicago Mexico_City New_York Havana Port-au-Prince Halifax St_Johns Nuuk Santiago Asuncion Sao_Paulo Montevideo Argentina/Buenos_Aires',
}).flatMap(([area, cities]) => cities.split(' ').map((city) => `${area}/${city}`));
