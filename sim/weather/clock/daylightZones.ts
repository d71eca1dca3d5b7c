import { IANAZone } from 'luxon';
import { DAY_MS } from '../../common/time.ts';

/** A zone's standard time may differ from the site's mean solar time by this much, minutes. */
export const FARTHEST_ZONE_MIN = 165;
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
export const DAYLIGHT_ZONES: readonly string[] = [
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
