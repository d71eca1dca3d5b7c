import { z } from 'zod';

/** What a maker reads off one LED at the bench. Stated errors are taken as twice the standard deviation. */
const ledReadingsSchema = z.strictObject({
  points: z
    .array(
      z.strictObject({
        current_mA: z.number().positive().max(5000).meta({ title: 'current of the LED' }),
        forward_V: z.number().positive().max(10).meta({ title: 'its forward voltage' }),
        lux: z.number().positive().meta({
          title: 'light of it on a meter that stays where it is',
          unit: 'lux',
        }),
      }),
    )
    .min(1)
    .max(50)
    .meta({ title: 'currents from a tenth of the usual one to the usual one, the distance never changed' }),
  background_lux: z.number().min(0).default(0).meta({
    title: 'what the meter shows with the LED off',
    assumption: 'a dark room',
  }),
  lux_step: z.number().positive().default(0.1).meta({
    title: 'last digit of the light meter',
    unit: 'lux',
    assumption: 'a plain light meter, from memory',
  }),
  current_error_percent: z.number().min(0).max(20).default(1).meta({
    title: 'error of each current in percent',
    assumption: 'a plain multimeter, from memory',
  }),
  efficacy_error_percent: z.number().min(0).max(50).default(14).meta({
    title: "error of the datasheet's efficacy, which scales the readings",
    assumption: 'the spread of a brightness class, from memory',
  }),
});

export type LedReadings = z.infer<typeof ledReadingsSchema>;

/** The LED or LEDs: forward voltage and efficacy against current. */
export const ledSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of an LED in the parts library' }),
  table: z
    .array(
      z.strictObject({
        current_mA: z.number().positive().meta({ title: 'current of one LED' }),
        forward_V: z.number().positive().max(10).meta({ title: 'forward voltage at that current' }),
        efficacy_lm_W: z.number().positive().max(683).meta({ title: 'lumens per watt at that current' }),
      }),
    )
    .min(1)
    .optional()
    .meta({ title: 'rows with rising current; between rows straight lines, beyond them the end values' }),
  readings: ledReadingsSchema.optional().meta({
    title: "readings at the bench, scaled by the table's efficacy at one current; they win over the table",
  }),
  raw: z
    .strictObject({
      forward_V: z.number().positive().meta({ title: 'forward voltage at every current' }),
      efficacy_lm_W: z.number().positive().max(683).meta({ title: 'lumens per watt at every current' }),
    })
    .optional()
    .meta({ title: 'model parameters instead of a table' }),
  price: z.number().min(0).optional().meta({ title: 'price of one part, in any one currency' }),
  count: z.number().int().min(1).max(100).default(1).meta({
    title: 'LEDs side by side, sharing the current',
  }),
  in_series: z.number().int().min(1).max(20).default(1).meta({ title: 'LEDs one after the other' }),
});

export type LedSection = z.infer<typeof ledSchema>;
