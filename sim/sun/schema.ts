import { IANAZone } from 'luxon';
import { z } from 'zod';

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
    albedo: z.number().min(0).max(1).default(0.2).meta({
      unit: '1',
      title: 'share of light the ground returns',
      assumption: 'grass and soil without snow, common practice',
    }),
  })
  .meta({ title: 'the place on Earth' });

export type SiteValue = z.output<typeof siteSchema>;
