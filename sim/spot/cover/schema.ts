import * as z from 'zod';

const index = z.number().min(1.01).max(2.5);
const absorption = z.number().min(0).max(500);
const thickness = z.number().positive().max(50);

/** What lies over the cell: a library part, optical values, or nothing. */
export const coverSchema = z.strictObject({
  kind: z.enum(['flat', 'dome', 'side-lit', 'resin', 'none']).default('flat').meta({
    title:
      'flat lid, round dome over the cell, jar that is lit through its side, cell cast in resin, or none at all',
    assumption: 'the cell lies under the lid',
  }),
  part: z.string().optional().meta({ title: 'name of a cover in the parts library' }),
  refractive_index: index.optional().meta({ unit: '1', title: 'refractive index of the cover' }),
  absorption_per_m: absorption
    .optional()
    .meta({ unit: '1/m', title: 'absorption of the cover over its thickness' }),
  thickness_mm: thickness.optional().meta({ unit: 'mm', title: 'thickness of the cover' }),
  lid: z.enum(['opaque', 'clear']).optional().meta({
    title: 'what closes a jar lit through its side at the top; opaque where not given',
  }),
  inner_width_mm: z.number().min(10).max(2000).optional().meta({
    unit: 'mm',
    title: 'inner width of a jar lit through its side',
  }),
  cell_below_lid_mm: z.number().min(1).max(2000).optional().meta({
    unit: 'mm',
    title: 'how far below its lid the cell lies in a jar lit through its side',
  }),
  dirt_loss: z
    .number()
    .min(0)
    .max(1)
    .default(0)
    .meta({
      unit: '1',
      title: 'share of the light that dirt on the cover takes',
      assumption: 'a clean cover',
      between: [0, 0.1],
    }),
  dirt_percent_year: z.number().min(0).max(50).optional().meta({
    unit: 'percent',
    title: 'light that the dirt of a year takes where nobody cleans the cover; 4 where not given',
  }),
  yellowing_percent_year: z.number().min(0).max(20).optional().meta({
    unit: 'percent',
    title: 'light that the cover itself loses in a year; 1 of resin and 0 of glass where not given',
  }),
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
