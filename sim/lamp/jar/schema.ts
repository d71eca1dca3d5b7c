import { z } from 'zod';

/** The jar as a heat store: how warm its air is. */
export const jarSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a jar in the parts library' }),
  price: z.number().min(0).optional().meta({ title: 'price of one part, in any one currency' }),
  rise_K_full_sun: z.number().min(0).max(80).default(20).meta({
    title: 'air inside above air outside in steady full sun (1000 W/m2 on the cell)',
    unit: 'K',
    assumption: 'closed glass jars in summer sun reach 50 degC: common practice, no source',
  }),
  time_constant_min: z.number().positive().default(30).meta({
    title: 'time constant of the air inside',
    unit: 'min',
    assumption: 'a one-litre jar, from memory',
  }),
  fixed_degC: z.number().min(-60).max(120).optional().meta({
    title: 'switches temperature off: everything stays at this temperature',
    unit: 'degC',
  }),
});

export type JarSection = z.infer<typeof jarSchema>;
