import type { z } from 'zod';
import type { cellSchema } from '../../lamp/cell/schema.ts';
import { GENERIC, type Part } from './Part.ts';

/** Solar cells of the parts library: four silicon junctions in series, about 60 cm2. */
export const CELLS: Readonly<Record<string, Part<z.input<typeof cellSchema>>>> = {
  'small-cell': {
    note: GENERIC,
    values: {
      short_circuit_mA: 500,
      open_circuit_V: 2.45,
      best_current_mA: 460,
      best_voltage_V: 1.95,
      cells_in_series: 4,
      shunt_V: 200,
      area_cm2: 60,
    },
  },
  'poor-cell': {
    note: GENERIC,
    values: {
      short_circuit_mA: 420,
      open_circuit_V: 2.35,
      best_current_mA: 360,
      best_voltage_V: 1.75,
      cells_in_series: 4,
      shunt_V: 25,
      area_cm2: 60,
    },
  },
};
