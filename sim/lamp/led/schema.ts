import * as z from 'zod';
import { bought, errorOf, keysOf, lowestTemperature, rowsOf, within } from '../schemaKeys.ts';

/** What a maker reads off one LED at the bench. Stated errors are taken as twice the standard deviation. */
const ledReadingsSchema = z.strictObject({
  points: rowsOf(
    'currents from a tenth of the usual one to the usual one, the distance never changed',
    [1, 50],
    {
      current_mA: within(1e-4, 5000).meta({ title: 'current of the LED' }),
      forward_V: within(0.1, 10).meta({ title: 'its forward voltage' }),
      lux: within(1e-3, 1e6).meta({ title: 'light of it on a meter that stays where it is', unit: 'lux' }),
    },
  ),
  background_lux: within(0, 1e6).default(0).meta({
    title: 'what the meter shows with the LED off',
    assumption: 'a dark room',
  }),
  lux_step: within(1e-4, 1000).default(0.1).meta({
    title: 'last digit of the light meter',
    unit: 'lux',
    assumption: 'a plain light meter, from memory',
  }),
  current_error_percent: errorOf(1, 20, 'each current in percent', 'a plain multimeter, from memory'),
  efficacy_error_percent: errorOf(
    14,
    50,
    "the datasheet's efficacy, which scales the readings",
    'the spread of a brightness class, from memory',
  ),
});

export type LedReadings = z.infer<typeof ledReadingsSchema>;

/** The LED or LEDs: forward voltage and efficacy against current. */
export const ledSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of an LED in the parts library' }),
  table: rowsOf('rows with rising current; between rows straight lines, beyond them the end values', [1], {
    current_mA: within(1e-4, 50_000).meta({ title: 'current of one LED' }),
    forward_V: within(0.1, 10).meta({ title: 'forward voltage at that current' }),
    efficacy_lm_W: within(0.01, 683).meta({ title: 'lumens per watt at that current' }),
  }).optional(),
  readings: ledReadingsSchema.optional().meta({
    title: "readings at the bench, scaled by the table's efficacy at one current; they win over the table",
  }),
  raw: keysOf('model parameters instead of a table', {
    forward_V: within(0.1, 10).meta({ title: 'forward voltage at every current' }),
    efficacy_lm_W: within(0.01, 683).meta({ title: 'lumens per watt at every current' }),
  }).optional(),
  lowest_degC: lowestTemperature,
  life: keysOf(
    'how long one LED keeps most of its light; 20 000 h at 20 mA to 70 percent where nothing is stated',
    {
      hours: within(100, 1e6).meta({ title: 'lit hours until that share of the light is left', unit: 'h' }),
      light_left: within(0.3, 0.99).default(0.7).meta({
        title: 'share of the light that is left then',
        assumption: 'most ratings say 70 percent: common practice, no source',
      }),
      at_mA: within(0.1, 50_000).meta({ title: 'current of one LED in it' }),
      at_degC: z.number().min(-20).max(150).default(25).meta({
        title: 'temperature in it',
        assumption: 'a small LED in a room',
      }),
    },
  ).optional(),
  ...bought,
  count: z.number().int().min(1).max(100).default(1).meta({
    title: 'LEDs in parallel, sharing the current',
  }),
  in_series: z.number().int().min(1).max(20).default(1).meta({ title: 'LEDs one after the other' }),
});

export type LedSection = z.infer<typeof ledSchema>;
