/** A place on Earth. */
export interface Site {
  /** North positive, -90 to 90. */
  latitude_deg: number;
  /** East positive, -180 to 180. */
  longitude_deg: number;
  elevation_m: number;
  /** IANA name, e.g. 'Europe/Berlin': civil time at the edges only. */
  timeZone: string;
  /** Reflectance of the ground, 0 to 1. */
  albedo: number;
}
