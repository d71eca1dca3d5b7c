import type { Site } from './Site.ts';
import { sunColumns } from './sunColumns.ts';

/** The sun over one hour. */
export interface SunOverHour {
  /** Share of the hour in which the sun is up, 0 to 1. */
  upShare: number;
  /** Mean cosine of the zenith angle over the sun-up part; 0 where the sun is down. */
  upCosZenith: number;
  /** Refracted altitude at the middle of the sun-up part; 0 where the sun is down. */
  upAltitude_deg: number;
  /** Azimuth at the middle of the sun-up part, clockwise from north; 0 where the sun is down. */
  upAzimuth_deg: number;
}

/**
 * The sun over one hour at a site. For single hours; a record takes `sunColumns`.
 *
 * in: start_ms, start of the hour, UTC milliseconds; site
 * out: share (1), cosine (1) and position (degrees) of the sun-up part
 * source: Meeus1998 through `sunColumns`
 */
export function sunOverHour(
  start_ms: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): SunOverHour {
  const sun = sunColumns(start_ms, 1, site);
  return {
    upShare: sun.upShare[0]!,
    upCosZenith: sun.upCosZenith[0]!,
    upAltitude_deg: sun.upAltitude_deg[0]!,
    upAzimuth_deg: sun.upAzimuth_deg[0]!,
  };
}
