import * as z from 'zod';
import { above0, from0, keysOf, rowsOf, within } from '../schemaKeys.ts';

const clock = /^([01]\d|2[0-3]):[0-5]\d$/;

const lasting = {
  hours: above0.max(24).optional().meta({ title: 'for how long; from dusk, to dawn at the most' }),
  until: z
    .union([z.literal('dawn'), z.string().regex(clock)])
    .optional()
    .meta({ title: "or until when: dawn, or civil time such as '23:00'" }),
};

/** When the lamp tries to shine. */
export const scheduleSchema = z.strictObject({
  on: z
    .union([z.literal('dusk'), z.literal('dark'), z.string().regex(clock)])
    .default('dusk')
    .meta({
      title:
        "when it switches on: dusk, dark (as the lamp itself senses it, see sense), or civil time such as '18:30'",
    }),
  sense: z
    .discriminatedUnion('by', [
      z.strictObject({
        by: z.literal('cell-voltage').meta({ title: 'by the voltage of the unloaded cell' }),
        night_below_V: within(1e-3, 100).meta({ title: 'dark below this' }),
        day_above_V: within(1e-3, 100).meta({ title: 'light again above this' }),
      }),
      z.strictObject({
        by: z.literal('lux').meta({ title: 'by a light sensor beside the cell' }),
        night_below_lux: within(1e-3, 1e5).meta({ title: 'dark below this' }),
        day_above_lux: within(1e-3, 1e5).meta({ title: 'light again above this' }),
      }),
    ])
    .optional()
    .meta({ title: 'how the lamp senses the dark, with on: dark' }),
  ...lasting,
  before_dawn_h: above0.max(12).optional().meta({
    title: 'a second time in the morning, so many hours before dawn until dawn',
  }),
  on_share: above0.max(1).default(1).meta({
    title:
      'share of that time the LED is on, in flashes that are seen as such: the promise is held against its light while on',
  }),
  motion: keysOf('it waits for motion, and is off between triggers', {
    triggers_per_h: above0.max(120).meta({
      title: 'triggers expected in an hour; how many come is random, by the seed',
      unit: '1/h',
    }),
    shines_s: above0.max(3600).meta({ title: 'how long it shines after each' }),
  }).optional(),
  dim: rowsOf('steps down (or up) through the evening, by hours after switching on', [0], {
    after_h: from0.max(24).meta({ title: 'hours after switching on; 0 is at once' }),
    light_share: from0.max(1).meta({
      title: 'share of its light from then on, by pulses so fast that the eye sees their mean; 0 is off',
    }),
  }).default([]),
});

export type ScheduleSection = z.infer<typeof scheduleSchema>;

/** What counts as a good night. */
export const promiseSchema = z.strictObject({
  from: z
    .union([z.literal('dusk'), z.string().regex(clock)])
    .default('dusk')
    .meta({ title: "from when light is promised: dusk, or civil time such as '18:30'" }),
  ...lasting,
  least_lumen: within(1e-6, 1e5).meta({ title: 'least light that counts as lit', unit: 'lm' }),
  tolerance_h: from0.max(24).default(0.25).meta({
    title: 'short hours that are forgiven in a night',
    assumption: 'a quarter of an hour',
  }),
});

export type PromiseSection = z.infer<typeof promiseSchema>;
