import type { z } from 'zod';
import type { capacitorSchema } from '../../lamp/capacitor/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** Supercapacitors of the parts library. */
export const STORES: Readonly<Record<string, Part<z.input<typeof capacitorSchema>>>> = {
  'medium-capacitor': {
    note: GENERIC,
    values: { capacitance_F: 500, rated_V: 2.7, esr_mohm: 5, leakage_uA: 1000, leakage_rest_h: 72 },
  },
};
