import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { siteFromSchema, siteSchema } from '../../sim/sun/Site.ts';

const good = { latitude_deg: 54, longitude_deg: 10, time_zone: 'Europe/Berlin' };

describe('siteSchema', () => {
  it('fills in sea level and the albedo of grass', () => {
    expect(siteFromSchema(siteSchema.parse(good))).toEqual({
      latitude_deg: 54,
      longitude_deg: 10,
      elevation_m: 0,
      timeZone: 'Europe/Berlin',
      albedo: 0.2,
    });
  });

  it('refuses a latitude of 95, a zone that is none and a key it does not know', () => {
    const faults = [{ latitude_deg: 95 }, { time_zone: 'Europe/Nowhere' }, { lattitude_deg: 54 }];
    for (const fault of faults) expect(siteSchema.safeParse({ ...good, ...fault }).success).toBe(false);
    const zone = siteSchema.safeParse({ ...good, time_zone: 'Garden/Shed' });
    expect(zone.error?.issues[0]?.message).toBe(
      'expected a time zone by its IANA name, such as Europe/Berlin',
    );
  });

  it('can be written as JSON Schema', () => {
    expect(z.toJSONSchema(siteSchema, { io: 'input' })).toMatchObject({
      required: ['latitude_deg', 'longitude_deg', 'time_zone'],
      properties: { latitude_deg: { unit: 'deg', maximum: 90 } },
    });
  });
});
