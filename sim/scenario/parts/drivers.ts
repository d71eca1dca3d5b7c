import type { z } from 'zod';
import type { driverSchema } from '../../lamp/driver/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** Drivers of the parts library. */
export const DRIVERS: Readonly<Record<string, Part<z.input<typeof driverSchema>>>> = {
  'inductor-driver': {
    note: GENERIC,
    values: {
      kind: 'boost',
      inductance_uH: 800,
      frequency_kHz: 8,
      duty: 0.2,
      rectifier_drop_V: 0,
      current_limit_mA: 30,
      efficiency: 0.9,
      cutoff_V: 0.9,
      restart_V: 1.1,
    },
  },
};
