import * as z from 'zod';
import { bought, errorOf, from0, rowsOf, within } from '../schemaKeys.ts';

/** What a maker reads off a jar on a sunny afternoon. Stated errors are taken as twice the standard deviation. */
const jarReadingsSchema = z.strictObject({
  points: rowsOf('temperatures after an hour or more of steady light', [1, 100], {
    light_W_m2: within(0.1, 1400).meta({
      title: 'light on the cell; its short-circuit current over that of full sun tells it',
    }),
    outside_degC: z.number().min(-40).max(60).meta({ title: 'air in the shade outside' }),
    inside_degC: z.number().min(-40).max(130).meta({ title: 'air in the jar' }),
  }),
  temperature_error_K: errorOf(2, 20, 'each difference of temperature', 'two household thermometers'),
  light_error_percent: errorOf(15, 50, 'each light', 'the cell as a light meter, while clouds are away'),
});

export type JarReadings = z.infer<typeof jarReadingsSchema>;

/** The jar as a heat capacitor: how warm its air is. */
export const jarSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a jar in the parts library' }),
  ...bought,
  readings: jarReadingsSchema
    .optional()
    .meta({ title: 'readings on a sunny afternoon; they win over rise_K_full_sun' }),
  rise_K_full_sun: from0
    .max(80)
    .default(20)
    .meta({
      title: 'air inside above air outside in steady full sun (1000 W/m2 on the cell)',
      unit: 'K',
      assumption: 'closed glass jars in summer sun reach 50 degC: common practice, no source',
      between: [10, 30],
    }),
  time_constant_min: within(0.01, 1e5)
    .default(30)
    .meta({
      title: 'time constant of the air inside',
      assumption: 'a one-litre jar, from memory',
      between: [15, 60],
    }),
  seal_fails_percent_year: within(0, 100).optional().meta({
    title: 'chance that its seal fails in a year, so that water comes in, in percent; 2 where not given',
  }),
  fixed_degC: z.number().min(-60).max(120).optional().meta({
    title: 'switches temperature off: everything stays at this temperature',
  }),
});

export type JarSection = z.infer<typeof jarSchema>;
