import { z } from 'zod';
import { COMPASS } from './bearingOf.ts';

/** A bearing as a number of degrees or a point of the compass. */
export const bearing = z.union([z.number().min(0).max(360), z.enum(COMPASS)]);

const metres = (title: string, assumption?: string) => ({
  unit: 'm',
  title,
  ...(assumption === undefined ? {} : { assumption }),
});
const distance = (what: string) =>
  z
    .number()
    .positive()
    .max(100_000)
    .meta(metres(`from the spot to ${what}`));
const size = z.number().positive().max(100_000);
const height = z.number().positive().max(300);
const share = z.number().min(0).max(1);
const reflectance = share.optional().meta({
  unit: '1',
  title:
    "share of light it returns (white paint 0.8, brick 0.3, leaves 0.2); the site's albedo where not given",
});
const where = (what: string) =>
  bearing.meta({
    unit: 'deg',
    title: `bearing of ${what} seen from the spot, clockwise from true north, or a compass point such as NNE`,
  });
const faces = bearing.optional().meta({
  unit: 'deg',
  title: 'bearing its near face looks at; straight back to the spot where not given',
});
const day = z
  .string()
  .regex(/^\d\d-\d\d$/, 'expected month and day, as 04-25')
  .optional();
const leafDays = {
  leaf_on: day.meta({
    title:
      'first day with leaves, month-day as 04-25; 25 April, south of the equator 25 October where not given',
  }),
  leaf_off: day.meta({
    title: 'first day without, month-day as 11-05; 5 November, south of the equator 5 May where not given',
  }),
};

const kind = <K extends string>(name: K) => z.literal(name).meta({ title: 'what kind of obstacle' });

const wall = z
  .strictObject({
    kind: kind('wall'),
    bearing_deg: where('its middle'),
    distance_m: distance('its middle'),
    faces_deg: faces,
    width_m: size.meta(metres('length of the wall')),
    height_m: height.meta(metres('height above the ground')),
    eaves_m: z
      .number()
      .min(0)
      .max(20)
      .default(0)
      .meta(metres('how far a roof reaches out over it', 'no roof')),
    reflectance,
  })
  .meta({ title: 'a wall' });

const house = z
  .strictObject({
    kind: kind('house'),
    bearing_deg: where('the middle of its near side'),
    distance_m: distance('the middle of its near side'),
    faces_deg: faces,
    width_m: size.meta(metres('length of the near side')),
    height_m: height.meta(metres('height of the eaves above the ground (a storey is about 2.8)')),
    depth_m: size.default(8).meta(metres('from the near side to the far side', 'a usual small house')),
    ridge_height_m: height
      .optional()
      .meta(metres('height of a ridge that runs along the near side; a flat roof where not given')),
    eaves_m: z
      .number()
      .min(0)
      .max(20)
      .default(0.4)
      .meta(metres('how far the roof reaches out over the walls', 'common practice, no source')),
    reflectance,
  })
  .meta({ title: 'a house or shed' });

const hedge = z
  .strictObject({
    kind: kind('hedge'),
    bearing_deg: where('its middle'),
    distance_m: distance('the middle of its near side'),
    faces_deg: faces,
    width_m: size.meta(metres('length of the hedge')),
    height_m: height.meta(metres('height above the ground')),
    depth_m: size.default(0.8).meta(metres('thickness', 'a clipped hedge')),
    transmittance: share.default(0.05).meta({
      unit: '1',
      title: 'share of light that passes it',
      assumption: 'a dense clipped hedge, no source',
    }),
    bare_transmittance: share.optional().meta({
      unit: '1',
      title: 'the same without leaves; evergreen where not given',
    }),
    ...leafDays,
    reflectance,
  })
  .meta({ title: 'a hedge' });

const fence = z
  .strictObject({
    kind: kind('fence'),
    bearing_deg: where('its middle'),
    distance_m: distance('its middle'),
    faces_deg: faces,
    width_m: size.meta(metres('length of the fence')),
    height_m: height.meta(metres('height above the ground')),
    openness: share.meta({ unit: '1', title: 'share of its face that is open' }),
    reflectance,
  })
  .meta({ title: 'a fence' });

const tree = z
  .strictObject({
    kind: kind('tree'),
    bearing_deg: where('its trunk'),
    distance_m: distance('the middle of its trunk'),
    trunk_width_m: z
      .number()
      .min(0)
      .max(20)
      .default(0.25)
      .meta(metres('thickness of the trunk', 'a garden tree')),
    crown_base_m: z.number().min(0).max(200).meta(metres('height of the lowest leaves above the ground')),
    crown_top_m: height.meta(metres('height of the top above the ground')),
    crown_width_m: size.meta(metres('width of the crown')),
    transmittance: share.default(0.1).meta({
      unit: '1',
      title: 'share of light that passes the crown in leaf',
      assumption: 'from memory of measured crowns (0.01 to 0.2)',
    }),
    bare_transmittance: share.default(0.5).meta({
      unit: '1',
      title: 'the same without leaves; an evergreen has the same as in leaf',
      assumption: 'from memory of measured bare crowns (0.4 to 0.8)',
    }),
    ...leafDays,
    reflectance,
  })
  .meta({ title: 'a tree' });

/** One obstacle around the spot, by its kind. */
export const obstacleSchema = z.discriminatedUnion('kind', [wall, house, hedge, fence, tree]);

export type ObstacleSection = z.output<typeof obstacleSchema>;
