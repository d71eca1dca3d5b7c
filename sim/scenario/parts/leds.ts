import type { z } from 'zod';
import type { ledSchema } from '../../lamp/led/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** LEDs of the parts library. */
export const LEDS: Readonly<Record<string, Part<z.input<typeof ledSchema>>>> = {
  'white-led': {
    note: GENERIC,
    values: {
      table: [
        { current_mA: 1, forward_V: 2.62, efficacy_lm_W: 178 },
        { current_mA: 5, forward_V: 2.7, efficacy_lm_W: 200 },
        { current_mA: 10, forward_V: 2.76, efficacy_lm_W: 193 },
        { current_mA: 20, forward_V: 2.86, efficacy_lm_W: 176 },
        { current_mA: 30, forward_V: 2.95, efficacy_lm_W: 162 },
      ],
    },
  },
};
