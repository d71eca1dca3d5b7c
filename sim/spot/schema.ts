import * as z from 'zod';
import { IRRADIANCE_UNITS, TEMPERATURE_UNITS } from '../tables/units.ts';
import { weatherSchema } from '../weather/schema.ts';
import { CELL_FRONTS } from './cover/cellFront.ts';
import { coverSchema } from './cover/schema.ts';
import { USUAL_SNOW } from './cover/snowLying.ts';
import { bearing, obstacleSchema } from './shade/schema.ts';

const file = z.string().min(1);
const heading = z.string().min(1).meta({ title: 'heading of the column in the file' });
const stamp = weatherSchema.shape.stamp.unwrap().meta({ title: 'the column with the time of each row' });
const missing = z
  .array(z.string())
  .default([''])
  .meta({ title: "codes that say 'missing'", assumption: 'an empty cell is a missing value' });

/** A letter first: a map whose keys are numbers would lose their order. */
const OBSTACLE_NAME = /^\p{L}(?:[\p{L}\p{N} ._-]{0,62}[\p{L}\p{N}_-])?$/u;

const horizonSchema = z.strictObject({
  file: file.meta({
    title: 'horizon profile, CSV with bearing_deg and elevation_deg; relative to the scenario',
  }),
  reflectance: z.number().min(0).max(1).optional().meta({
    unit: '1',
    title: "share of light that what stands there reflects; the site's albedo where not given",
  }),
});

const shadingSchema = z.strictObject({
  factor: z.number().min(0).max(1).optional().meta({
    unit: '1',
    title: 'share of the light that passes, the same at all hours',
  }),
  file: file.optional().meta({ title: 'share of the light by stamp, hourly CSV; relative to the scenario' }),
  stamp: stamp.optional(),
  column: heading.optional(),
  unit: z.enum(['1', '%']).default('1').meta({
    title: 'unit of the column',
    assumption: 'a share from 0 to 1',
  }),
});

const lightOnCellSchema = z.strictObject({
  file: file.meta({ title: 'light on the cell, hourly CSV; relative to the scenario' }),
  stamp,
  column: heading,
  unit: z.enum(IRRADIANCE_UNITS).meta({ title: 'unit; of an energy: the sum over the hour' }),
  air_temperature: z
    .strictObject({
      column: heading.optional(),
      unit: z.enum(TEMPERATURE_UNITS).default('degC').meta({
        title: 'unit of the column',
        assumption: 'degrees Celsius',
      }),
      constant_degC: z.number().min(-90).max(60).optional().meta({
        unit: 'degC',
        title: 'one temperature for all hours',
      }),
    })
    .optional()
    .meta({ unit: 'degC', title: "air temperature: a column, or a constant; the weather's where not given" }),
  missing,
});

const measuredLightSchema = z.strictObject({
  file: file.meta({
    title: 'light at the spot, CSV with a reading at least every hour; relative to the scenario',
  }),
  stamp,
  column: heading,
  unit: z
    .enum([...IRRADIANCE_UNITS, 'lux', 'klux'])
    .meta({ title: 'unit; of an energy: the sum over the step' }),
  lumen_per_W: z.number().min(50).max(200).default(110).meta({
    unit: 'lm/W',
    title: 'lux for each W/m2 of daylight, where the log is in lux',
    assumption: 'daylight of all skies; published means run from 105 to 120',
  }),
  sensor_tilt_deg: z.number().min(0).max(90).default(0).meta({
    unit: 'deg',
    title: 'tilt of the bare sensor',
    assumption: 'it lay flat',
  }),
  sensor_bearing_deg: bearing.optional().meta({
    unit: 'deg',
    title: 'bearing a tilted sensor faced',
  }),
  replaces: z.enum(['geometry', 'factor']).default('geometry').meta({
    title:
      'what the two shares stand for: all that surrounds the spot, or what the stated surroundings leave open',
    assumption: 'the log tells all there is to know of the surroundings',
  }),
  missing,
});

const snowSchema = z.strictObject({
  on_lid: z.boolean().default(USUAL_SNOW.on_lid).meta({
    title: 'whether snow stays on the lid until it melts',
    assumption: 'nobody brushes it off',
  }),
  ground_albedo: z.number().min(0).max(1).default(USUAL_SNOW.ground_albedo).meta({
    unit: '1',
    title: 'share of light that snow on the ground reflects',
    assumption: 'between fresh and old snow (0.4 to 0.85), from memory',
  }),
});

/** One entry of the scenario's `spots`: where a lamp stands and how its cell lies. */
export const spotSchema = z
  .strictObject({
    cell_tilt_deg: z.number().min(0).max(90).default(0).meta({
      unit: 'deg',
      title: 'tilt of the cell: 0 flat, 90 upright',
      assumption: 'the cell lies flat under the lid',
    }),
    cell_bearing_deg: bearing.optional().meta({
      unit: 'deg',
      title: 'bearing a tilted cell faces, clockwise from true north, or a compass point such as SSW',
    }),
    cell_height_m: z.number().min(0).max(100).optional().meta({
      unit: 'm',
      title: 'height of the cell above the ground, for what obstacles hide; 0.15 where not given',
    }),
    cell_front: z
      .enum(CELL_FRONTS)
      .default('flat')
      .meta({
        title:
          "front of the cell, for what it loses at low sun beyond its loss straight on, which the cell's current holds: flat, textured, coated, or none to leave that out; a cell cast in resin has the resin for a front",
        assumption: 'smooth and clean; textured and coated ones lose less',
        between: ['flat', 'coated'],
      }),
    cover: coverSchema.default({ kind: 'flat', part: 'flat-lid', dirt_loss: 0 }).meta({
      title: 'what lies over the cell',
      assumption: 'a glass lid',
    }),
    horizon: horizonSchema.optional().meta({ title: 'what stands around the spot, as seen from it' }),
    obstacles: z.record(z.string().regex(OBSTACLE_NAME), obstacleSchema).optional().meta({
      title: 'what stands around the spot, by name: walls, houses, hedges, fences, trees',
    }),
    snow: snowSchema.optional().meta({
      title: 'snow on lid and ground, where the weather has snow depth, or rain and temperature',
    }),
    shading: shadingSchema
      .optional()
      .meta({ title: 'share of the light that passes, from a trace or fixed' }),
    sky_model: z
      .enum(['hay-davies', 'isotropic', 'perez'])
      .default('hay-davies')
      .meta({
        title: 'how the diffuse light is spread over the sky',
        assumption: 'brighter around the sun; the choice matters little for a nearly flat cell',
        between: ['isotropic', 'perez'],
      }),
    night_light_lux: z.number().min(0).max(1000).default(0).meta({
      unit: 'lux',
      title:
        'light of a street or porch lamp on the cell, all night; a lamp that senses the dark must beat it',
      assumption: 'none',
    }),
    measured_light: measuredLightSchema.optional().meta({
      title:
        'light logged at the spot beside the weather of the same days; gives a share for beam and for diffuse',
    }),
    light_on_cell: lightOnCellSchema.optional().meta({
      title:
        "light logged on the cell itself; sun, sky, horizon, cover and front are then not computed: best the cell's own short-circuit current",
    }),
  })
  .meta({ title: 'a place in the garden and how the lamp stands there' });

export type SpotSection = z.output<typeof spotSchema>;
