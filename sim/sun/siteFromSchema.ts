import type { Site } from './Site.ts';
import type { SiteValue } from './schema.ts';

/**
 * The site as the stages use it, from the scenario's `site` with its defaults filled in.
 *
 * in: value, as `siteSchema` gives it
 * out: degrees, metres, IANA zone, albedo 0 to 1
 */
export function siteFromSchema(value: SiteValue): Site {
  return {
    latitude_deg: value.latitude_deg,
    longitude_deg: value.longitude_deg,
    elevation_m: value.elevation_m,
    timeZone: value.time_zone,
    albedo: value.albedo,
  };
}
