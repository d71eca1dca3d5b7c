import { z } from 'zod';

/** The LED or LEDs: forward voltage and efficacy against current. */
export const ledSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of an LED in the parts library' }),
  table: z
    .array(
      z.strictObject({
        current_mA: z.number().positive().meta({ title: 'current of one LED', unit: 'mA' }),
        forward_V: z
          .number()
          .positive()
          .max(10)
          .meta({ title: 'forward voltage at that current', unit: 'V' }),
        efficacy_lm_W: z
          .number()
          .positive()
          .max(683)
          .meta({ title: 'lumens per watt at that current', unit: 'lm/W' }),
      }),
    )
    .min(1)
    .optional()
    .meta({ title: 'rows with rising current; between rows straight lines, beyond them the end values' }),
  raw: z
    .strictObject({
      forward_V: z.number().positive().meta({ title: 'forward voltage at every current', unit: 'V' }),
      efficacy_lm_W: z
        .number()
        .positive()
        .max(683)
        .meta({ title: 'lumens per watt at every current', unit: 'lm/W' }),
    })
    .optional()
    .meta({ title: 'model parameters instead of a table' }),
  count: z
    .number()
    .int()
    .min(1)
    .max(100)
    .default(1)
    .meta({ title: 'LEDs side by side, sharing the current' }),
  in_series: z.number().int().min(1).max(20).default(1).meta({ title: 'LEDs one after the other' }),
});

export type LedSection = z.infer<typeof ledSchema>;
