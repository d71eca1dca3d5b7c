import * as z from 'zod';
import { COMPASS } from './bearing.ts';

/** A bearing as a number of degrees or a point of the compass. */
export const bearing = z.union([z.number().min(0).max(360), z.enum(COMPASS)]);

const metres = (title: string) => ({ unit: 'm', title });
const size = z.number().positive().max(100_000);
const height = z.number().positive().max(300);
/** Metres of a trunk or an overhang. */
const few = z.number().min(0).max(20);
const share = z.number().min(0).max(1);
const place = (bearingTo: string, distanceTo: string) => ({
  bearing_deg: bearing.meta({
    unit: 'deg',
    title: `bearing of ${bearingTo} seen from the spot, clockwise from true north, or a compass point such as NNE`,
  }),
  distance_m: size.meta(metres(`from the spot to ${distanceTo}`)),
});
/** The near face of something with a box's shape. */
const face = (width: string, tall = 'height above the ground') => ({
  faces_deg: bearing.optional().meta({
    unit: 'deg',
    title: 'bearing its near face looks at; straight back to the spot where not given',
  }),
  width_m: size.meta(metres(width)),
  height_m: height.meta(metres(tall)),
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

/** What all obstacles say alike, around what one kind says of itself. */
const obstacle = <Kind extends string, Own extends z.ZodRawShape>(kind: Kind, title: string, own: Own) =>
  z
    .strictObject({
      kind: z.literal(kind).meta({ title: 'what kind of obstacle' }),
      ...own,
      reflectance: share.optional().meta({
        unit: '1',
        title:
          "share of light it reflects (white paint 0.8, brick 0.3, leaves 0.2); the site's albedo where not given",
      }),
    })
    .meta({ title });

const wall = obstacle('wall', 'a wall', {
  ...place('its middle', 'its middle'),
  ...face('length of the wall'),
  eaves_m: few.default(0).meta({ ...metres('how far a roof reaches out over it'), assumption: 'no roof' }),
});

const house = obstacle('house', 'a house or shed', {
  ...place('the middle of its near side', 'the middle of its near side'),
  ...face('length of the near side', 'height of the eaves above the ground (a storey is about 2.8)'),
  depth_m: size
    .default(8)
    .meta({ ...metres('from the near side to the far side'), assumption: 'a usual small house' }),
  ridge_height_m: height
    .optional()
    .meta(metres('height of a ridge that runs along the near side; a flat roof where not given')),
  eaves_m: few.default(0.4).meta({
    ...metres('how far the roof reaches out over the walls'),
    assumption: 'common practice, no source',
  }),
});

const hedge = obstacle('hedge', 'a hedge', {
  ...place('its middle', 'the middle of its near side'),
  ...face('length of the hedge'),
  depth_m: size.default(0.8).meta({ ...metres('thickness'), assumption: 'a clipped hedge' }),
  transmittance: share.default(0.05).meta({
    unit: '1',
    title: 'share of light that passes it',
    assumption: 'a dense clipped hedge, no source',
    between: [0, 0.2],
  }),
  bare_transmittance: share.optional().meta({
    unit: '1',
    title: 'the same without leaves; evergreen where not given',
  }),
  ...leafDays,
});

const fence = obstacle('fence', 'a fence', {
  ...place('its middle', 'its middle'),
  ...face('length of the fence'),
  openness: share.meta({ unit: '1', title: 'share of its face that is open' }),
});

const tree = obstacle('tree', 'a tree', {
  ...place('its trunk', 'the middle of its trunk'),
  trunk_width_m: few.default(0.25).meta({ ...metres('thickness of the trunk'), assumption: 'a garden tree' }),
  crown_base_m: z.number().min(0).max(200).meta(metres('height of the lowest leaves above the ground')),
  crown_top_m: height.meta(metres('height of the top above the ground')),
  crown_width_m: size.meta(metres('width of the crown')),
  transmittance: share.default(0.1).meta({
    unit: '1',
    title: 'share of light that passes the crown in leaf',
    assumption: 'from memory of measured crowns (0.01 to 0.2)',
    between: [0.01, 0.2],
  }),
  bare_transmittance: share.default(0.5).meta({
    unit: '1',
    title: 'the same without leaves; an evergreen has the same as in leaf',
    assumption: 'from memory of measured bare crowns (0.4 to 0.8)',
    between: [0.4, 0.8],
  }),
  ...leafDays,
});

/** One obstacle around the spot, by its kind. */
export const obstacleSchema = z.discriminatedUnion('kind', [wall, house, hedge, fence, tree]);

export type ObstacleSection = z.output<typeof obstacleSchema>;
