import type { z } from 'zod';
import type { jarSchema } from '../../lamp/jar/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** Jars of the parts library. */
export const JARS: Readonly<Record<string, Part<z.input<typeof jarSchema>>>> = {
  'small-jar': {
    note: GENERIC,
    values: { rise_K_full_sun: 20, time_constant_min: 30 },
  },
};
