import { z } from 'zod';

/** Raw single-diode parameters of a cell, as a circuit simulator takes them. */
export const rawCellSchema = z.strictObject({
  photocurrent_A: z.number().positive().meta({ title: 'photocurrent at 1000 W/m2 and 25 degC', unit: 'A' }),
  saturation_A: z.number().positive().meta({ title: 'saturation current at 25 degC', unit: 'A' }),
  ideality: z.number().min(0.5).max(5).meta({ title: 'ideality factor of one junction' }),
  series_ohm: z.number().min(0).meta({ title: 'series resistance', unit: 'ohm' }),
  shunt_ohm: z.number().positive().meta({ title: 'shunt resistance', unit: 'ohm' }),
});

/** A cell as the scenario gives it: a datasheet, or `raw` model parameters. All values at 1000 W/m2 and 25 degC. */
export const cellSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a cell in the parts library' }),
  raw: rawCellSchema.optional().meta({ title: 'model parameters instead of datasheet values' }),
  short_circuit_mA: z.number().positive().optional().meta({ title: 'short-circuit current', unit: 'mA' }),
  open_circuit_V: z
    .number()
    .positive()
    .max(100)
    .optional()
    .meta({ title: 'open-circuit voltage', unit: 'V' }),
  best_current_mA: z.number().positive().optional().meta({ title: 'current at the best point', unit: 'mA' }),
  best_voltage_V: z.number().positive().optional().meta({ title: 'voltage at the best point', unit: 'V' }),
  cells_in_series: z.number().int().min(1).max(80).meta({ title: 'junctions in series inside one cell' }),
  current_tempco_percent_K: z.number().min(-0.5).max(0.5).default(0.05).meta({
    title: 'change of the short-circuit current with temperature',
    unit: '%/K',
    assumption: 'typical of crystalline silicon, from memory',
  }),
  voltage_tempco_mV_K: z.number().min(-5).max(0).default(-2.2).meta({
    title: 'change of the open-circuit voltage with temperature, for each junction',
    unit: 'mV/K',
    assumption: 'typical of a silicon junction, from memory',
  }),
  shunt_V: z.number().positive().default(200).meta({
    title: 'shunt resistance times short-circuit current: how well the cell works in dim light',
    unit: 'V',
    assumption: 'a fair small cell; poor ones have 20 V, good ones 1000 V (from memory, measure yours)',
  }),
  low_light_point: z
    .strictObject({
      irradiance_W_m2: z.number().positive().max(500).meta({ title: 'dim light', unit: 'W/m2' }),
      open_circuit_V: z.number().positive().meta({ title: 'open-circuit voltage in it', unit: 'V' }),
    })
    .optional()
    .meta({ title: 'one point in dim light, which settles the shunt instead of shunt_V' }),
  area_cm2: z.number().positive().optional().meta({
    title: 'area of the cell; only for the optical part of the energy ledger',
    unit: 'cm2',
  }),
  price: z.number().min(0).optional().meta({ title: 'price of one part, in any one currency' }),
  parallel: z.number().int().min(1).max(100).default(1).meta({ title: 'cells side by side' }),
  series: z.number().int().min(1).max(100).default(1).meta({ title: 'cells one after the other' }),
});

export type CellSection = z.infer<typeof cellSchema>;
