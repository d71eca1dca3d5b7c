import type { z } from 'zod';
import type { diodeSchema } from '../../lamp/diode/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** Blocking diodes of the parts library. */
export const DIODES: Readonly<Record<string, Part<z.input<typeof diodeSchema>>>> = {
  'small-schottky': {
    note: GENERIC,
    values: { forward_drop: [{ current_mA: 10, drop_V: 0.2 }] },
  },
};
