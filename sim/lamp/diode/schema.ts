import { z } from 'zod';

/** What a maker reads off a blocking diode at the bench. Stated errors are taken as twice the standard deviation. */
const diodeReadingsSchema = z.strictObject({
  forward: z
    .array(
      z.strictObject({
        current_mA: z.number().positive().max(50_000).meta({ title: 'forward current' }),
        drop_V: z.number().positive().max(2).meta({ title: 'forward voltage at that current' }),
      }),
    )
    .min(1)
    .max(50)
    .meta({ title: 'forward voltage at one current or more; a few milliamperes decide in winter' }),
  diode_degC: z.number().min(-30).max(90).default(25).meta({
    title: 'temperature of the diode',
    assumption: 'indoors',
  }),
  temperature_error_K: z.number().min(0).max(20).default(2).meta({
    title: 'error of that temperature',
    assumption: 'a room thermometer',
  }),
  voltage_error_percent: z.number().min(0).max(10).default(0.5).meta({
    title: "the voltmeter's error in percent of the reading",
    assumption: 'a plain multimeter, from memory',
  }),
  voltage_step_mV: z.number().positive().default(1).meta({
    title: 'last digit of the voltmeter',
    assumption: 'a range of 2 V on a meter of 2000 counts',
  }),
  current_error_percent: z.number().min(0).max(20).default(1).meta({
    title: 'error of each current in percent',
    assumption: 'a plain multimeter, from memory',
  }),
});

export type DiodeReadings = z.infer<typeof diodeReadingsSchema>;

/** The blocking diode between cell and capacitor: a junction (Schottky or silicon) or an ideal-diode switch. */
export const diodeSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a blocking diode in the parts library' }),
  raw: z
    .strictObject({
      saturation_A: z.number().positive().meta({ title: 'saturation current at 25 degC' }),
      ideality: z.number().min(0.5).max(5).meta({ title: 'ideality factor' }),
      series_ohm: z.number().min(0).default(0).meta({ title: 'series resistance' }),
    })
    .optional()
    .meta({ title: 'model parameters instead of datasheet values' }),
  readings: diodeReadingsSchema
    .optional()
    .meta({ title: 'readings at the bench; they win over datasheet values beside them' }),
  price: z.number().min(0).optional().meta({ title: 'price of one part, in any one currency' }),
  forward_drop: z
    .array(
      z.strictObject({
        current_mA: z.number().positive().meta({ title: 'forward current' }),
        drop_V: z.number().positive().max(2).meta({ title: 'forward voltage at that current' }),
      }),
    )
    .min(1)
    .max(2)
    .optional()
    .meta({ title: 'forward voltage at 25 degC at one current, or at two (which settle the ideality)' }),
  ideality: z.number().min(0.8).max(3).default(1.05).meta({
    title: 'ideality factor, where one forward point is given',
    assumption: 'typical of a small Schottky diode, from memory',
  }),
  series_ohm: z.number().min(0).default(0).meta({
    title: 'series resistance',
    assumption: 'nothing beside the cell at the few milliamperes that decide',
  }),
  switch_on_ohm: z.number().positive().optional().meta({
    title: 'an ideal-diode switch instead of a junction: its resistance when on',
  }),
  reverse_leakage_uA: z.number().min(0).default(0).meta({
    title: 'current let back at reverse_voltage_V, beyond the saturation current',
    assumption: 'none',
  }),
  reverse_voltage_V: z.number().positive().default(2).meta({
    title: 'reverse voltage of that leakage',
    assumption: 'about a full capacitor before a dark cell',
  }),
  reverse_doubling_K: z.number().positive().default(10).meta({
    title: 'warming that doubles that leakage',
    assumption: 'from memory',
  }),
  barrier_eV: z.number().min(0).max(2).default(0.69).meta({
    title: 'barrier height, which moves the saturation current with temperature; 0 keeps it fixed',
    assumption: 'a silicon Schottky diode, from memory; 1.11 for a silicon junction',
  }),
});

export type DiodeSection = z.infer<typeof diodeSchema>;
