import * as z from 'zod';
import {
  ammeterStep,
  bought,
  errorOf,
  from0,
  keysOf,
  rowsOf,
  voltmeterError,
  voltmeterStep,
  within,
} from '../schemaKeys.ts';
import { SILICON } from './SingleDiode.ts';

/** Raw single-diode parameters of a cell, as a circuit simulator takes them. */
const rawCellSchema = z.strictObject({
  photocurrent_A: within(1e-6, 50).meta({ title: 'photocurrent at 1000 W/m2 and 25 degC' }),
  saturation_A: within(1e-30, 0.1).meta({ title: 'saturation current at 25 degC' }),
  ideality: z.number().min(0.5).max(5).meta({ title: 'ideality factor of one junction' }),
  series_ohm: within(0, 1000).meta({ title: 'series resistance' }),
  shunt_ohm: within(0.01, 1e9).meta({ title: 'shunt resistance' }),
});

/** One light in which the cell was read. */
const lightSchema = z.strictObject({
  short_circuit_mA: within(1e-3, 50_000).meta({
    title: 'current through the ammeter alone; it is the light meter too',
  }),
  open_circuit_V: within(1e-3, 100).meta({ title: 'open-circuit voltage' }),
  cell_degC: z.number().min(-30).max(90).default(25).meta({
    title: 'temperature of the cell in this light',
    assumption: 'indoors; a cell in full sun is 10 to 25 K warmer than the air, measure it',
  }),
  burden_ohm: from0.max(1000).default(0).meta({
    title: 'resistance of the ammeter on the range that was used',
    assumption: 'none; a range of 200 mA often has 1 ohm, one of 10 A about 0.02 ohm, leads included',
  }),
  current_step_mA: ammeterStep('last digit of the ammeter on that range'),
  voltage_step_mV: voltmeterStep(),
  loaded: rowsOf('points under load in the same light', [0], {
    voltage_V: z.number().min(-100).max(100).meta({ title: 'voltage of the cell' }),
    current_mA: z.number().min(-50_000).max(50_000).optional().meta({ title: 'its current' }),
    load_ohm: within(1e-3, 1e9).optional().meta({ title: 'the resistor across it, in place of the current' }),
  }).default([]),
});

/** What a maker reads off a cell at the bench. Stated errors are taken as twice the standard deviation. */
const cellReadingsSchema = z.strictObject({
  lights: z
    .array(lightSchema)
    .min(1)
    .max(100)
    .meta({ title: 'readings by light; the brightest is full sun square on the cell' }),
  full_sun_W_m2: z.number().min(50).max(1400).default(1000).meta({
    title: 'light on the cell in the brightest of them',
    assumption: 'a clear day, the cell square to the sun: common practice, no source',
  }),
  full_sun_error_percent: errorOf(10, 50, 'that light', 'by season and haze: common practice, no source'),
  voltage_error_percent: voltmeterError,
  current_error_percent: from0.max(20).default(1).meta({
    title: "the ammeter's error in percent of the reading",
    assumption: 'a plain multimeter, from memory',
  }),
  resistor_error_percent: errorOf(1, 20, 'each load resistor', 'metal film'),
  light_drift_percent: from0.max(20).default(1).meta({
    title: 'how far the light wanders between readings of one light',
    assumption: 'a steady sky and quick hands',
  }),
  temperature_error_K: errorOf(3, 20, 'each cell temperature', 'a thermometer on the back of the cell'),
});

export type CellReadings = z.infer<typeof cellReadingsSchema>;

/**
 * A cell as the scenario gives it: a datasheet, readings, or `raw` model parameters. Datasheet and raw values are at
 * 1000 W/m2 and 25 degC.
 */
export const cellSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a cell in the parts library' }),
  raw: rawCellSchema.optional().meta({ title: 'model parameters instead of datasheet values' }),
  readings: cellReadingsSchema
    .optional()
    .meta({ title: 'readings at the bench; they win over datasheet values beside them' }),
  short_circuit_mA: within(1e-3, 50_000).optional().meta({ title: 'short-circuit current' }),
  open_circuit_V: within(0.01, 100).optional().meta({ title: 'open-circuit voltage' }),
  best_current_mA: within(1e-3, 50_000).optional().meta({ title: 'current at the best point' }),
  best_voltage_V: within(0.01, 100).optional().meta({ title: 'voltage at the best point' }),
  cells_in_series: z.number().int().min(1).max(80).meta({ title: 'junctions in series inside one cell' }),
  current_tempco_percent_K: z.number().min(-0.5).max(0.5).default(0.05).meta({
    title: 'change of the short-circuit current with temperature',
    assumption: 'typical of crystalline silicon, from memory',
  }),
  voltage_tempco_mV_K: z
    .number()
    .min(-5)
    .max(0)
    .default(-2.2)
    .meta({
      title: 'change of the open-circuit voltage with temperature, for each junction',
      assumption: 'typical of a silicon junction, from memory',
      between: [-2.4, -2],
    }),
  shunt_V: within(0.01, 1e6)
    .default(SILICON.fairShunt_V)
    .meta({
      title: 'shunt resistance times short-circuit current: how well the cell works in dim light',
      assumption:
        'a fair small cell; of many it is 50 to 600 V, of poor ones 25, of good ones 1000 (from memory, measure yours)',
      between: [50, 600],
    }),
  low_light_point: keysOf('one point in dim light, which settles the shunt instead of shunt_V', {
    irradiance_W_m2: within(0.1, 500).meta({ title: 'dim light; about 10 W/m2 tells the shunt best' }),
    open_circuit_V: within(1e-3, 100).meta({ title: 'open-circuit voltage in it' }),
  }).optional(),
  area_cm2: within(0.01, 1e5).optional().meta({
    title: 'area of the cell; only for the optical part of the energy ledger',
  }),
  decline_percent_year: within(0, 20).optional().meta({
    title: 'what its current loses in a year, in percent; 0.5 where not given',
  }),
  ...bought,
  parallel: z.number().int().min(1).max(100).default(1).meta({ title: 'cells in parallel' }),
  series: z.number().int().min(1).max(100).default(1).meta({ title: 'cells in series' }),
});

export type CellSection = z.infer<typeof cellSchema>;
