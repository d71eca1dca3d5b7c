import { z } from 'zod';

const index = z.number().min(1.01).max(2.5);
const absorption = z.number().min(0).max(500);
const thickness = z.number().positive().max(50);

/** What lies over the cell: a library part, optical values, or nothing. */
export const coverSchema = z.strictObject({
  kind: z.enum(['flat', 'none']).default('flat').meta({
    title: 'a flat clear cover, or none at all',
    assumption: 'the cell lies under the lid',
  }),
  part: z.string().optional().meta({ title: 'name of a cover in the parts library' }),
  refractive_index: index.optional().meta({ unit: '1', title: 'refractive index of the cover' }),
  absorption_per_m: absorption
    .optional()
    .meta({ unit: '1/m', title: 'absorption of the cover over its thickness' }),
  thickness_mm: thickness.optional().meta({ unit: 'mm', title: 'thickness of the cover' }),
  raw: z
    .strictObject({
      refractive_index: index.meta({ unit: '1', title: 'refractive index' }),
      absorption_per_m: absorption.meta({ unit: '1/m', title: 'absorption over the thickness' }),
      thickness_mm: thickness.meta({ unit: 'mm', title: 'thickness' }),
    })
    .optional()
    .meta({ title: 'all optical values, instead of a part' }),
});

export type CoverSection = z.output<typeof coverSchema>;
