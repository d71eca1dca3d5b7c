import * as z from 'zod';
import {
  benchTemperature,
  bought,
  errorOf,
  from0,
  keysOf,
  rowsOf,
  voltmeterError,
  voltmeterStep,
  within,
} from '../schemaKeys.ts';

/** What a maker reads off a blocking diode at the bench. Stated errors are taken as twice the standard deviation. */
const diodeReadingsSchema = z.strictObject({
  forward: rowsOf('forward voltage at one current or more; a few milliamperes decide in winter', [1, 50], {
    current_mA: within(1e-3, 50_000).meta({ title: 'forward current' }),
    drop_V: within(1e-3, 2).meta({ title: 'forward voltage at that current' }),
  }),
  diode_degC: benchTemperature('temperature of the diode'),
  temperature_error_K: errorOf(2, 20, 'that temperature', 'a room thermometer'),
  voltage_error_percent: voltmeterError,
  voltage_step_mV: voltmeterStep(),
  current_error_percent: errorOf(1, 20, 'each current in percent', 'a plain multimeter, from memory'),
});

export type DiodeReadings = z.infer<typeof diodeReadingsSchema>;

/** The blocking diode between cell and capacitor: a junction (Schottky or silicon) or an ideal-diode switch. */
export const diodeSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a blocking diode in the parts library' }),
  raw: keysOf('model parameters instead of datasheet values', {
    saturation_A: within(1e-18, 0.1).meta({ title: 'saturation current at 25 degC' }),
    ideality: z.number().min(0.5).max(5).meta({ title: 'ideality factor' }),
    series_ohm: within(0, 1000).default(0).meta({ title: 'series resistance' }),
  }).optional(),
  readings: diodeReadingsSchema
    .optional()
    .meta({ title: 'readings at the bench; they win over datasheet values beside them' }),
  ...bought,
  forward_drop: rowsOf(
    'forward voltage at 25 degC at one current, or at two (which settle the ideality)',
    [1, 2],
    {
      current_mA: within(1e-3, 50_000).meta({ title: 'forward current' }),
      drop_V: within(1e-3, 2).meta({ title: 'forward voltage at that current' }),
    },
  ).optional(),
  ideality: z
    .number()
    .min(0.8)
    .max(3)
    .default(1.05)
    .meta({
      title: 'ideality factor, where one forward point is given',
      assumption: 'typical of a small Schottky diode, from memory',
      between: [1, 1.15],
    }),
  series_ohm: within(0, 1000).default(0).meta({
    title: 'series resistance',
    assumption: 'nothing beside the cell at the few milliamperes that decide',
  }),
  switch_on_ohm: within(1e-4, 1000).optional().meta({
    title: 'an ideal-diode switch instead of a junction: its resistance when on',
  }),
  reverse_leakage_uA: within(0, 1e5)
    .default(0)
    .meta({
      title: 'current let back at reverse_voltage_V, beyond the saturation current',
      assumption: 'none',
      between: [0, 30],
    }),
  reverse_voltage_V: within(0.01, 200).default(2).meta({
    title: 'reverse voltage of that leakage',
    assumption: 'about a full capacitor before a dark cell',
  }),
  reverse_doubling_K: within(3, 1000).default(10).meta({
    title: 'warming that doubles that leakage',
    assumption: 'from memory',
  }),
  barrier_eV: from0
    .max(2)
    .default(0.69)
    .meta({
      title: 'barrier height, which moves the saturation current with temperature; 0 keeps it fixed',
      assumption: 'a silicon Schottky diode, from memory; 1.11 for a silicon junction',
      between: [0.6, 0.8],
    }),
});

export type DiodeSection = z.infer<typeof diodeSchema>;
