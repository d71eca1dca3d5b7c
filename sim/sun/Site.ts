import { IANAZone } from 'luxon';
import * as z from 'zod';

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

/** The scenario's `site`. */
export const siteSchema = z
  .strictObject({
    latitude_deg: z.number().min(-90).max(90).meta({ unit: 'deg', title: 'latitude, north positive' }),
    longitude_deg: z.number().min(-180).max(180).meta({ unit: 'deg', title: 'longitude, east positive' }),
    elevation_m: z.number().min(-450).max(9000).default(0).meta({
      unit: 'm',
      title: 'height above sea level',
      assumption: 'sea level; it only moves the clear-sky beam',
    }),
    time_zone: z
      .string()
      .refine((name) => IANAZone.isValidZone(name), {
        error: 'expected a time zone by its IANA name, such as Europe/Berlin',
      })
      .meta({ title: 'time zone of the clock on the wall, IANA name' }),
    albedo: z
      .number()
      .min(0)
      .max(1)
      .default(0.2)
      .meta({
        unit: '1',
        title: 'share of light the ground reflects',
        assumption: 'grass and soil without snow, common practice',
        between: [0.1, 0.3],
      }),
  })
  .meta({ title: 'the place on Earth' });

/**
 * The site as the stages use it, from the scenario's `site` with its defaults filled in.
 *
 * in: value, as `siteSchema` gives it
 * out: degrees, metres, IANA zone, albedo 0 to 1
 */
export function siteFromSchema({ time_zone, ...site }: z.output<typeof siteSchema>): Site {
  return { ...site, timeZone: time_zone };
}
