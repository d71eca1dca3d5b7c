import * as z from 'zod';
import {
  benchTemperature,
  bought,
  boughtFor,
  errorOf,
  from0,
  keysOf,
  lowestTemperature,
  rowsOf,
  voltmeterError,
  voltmeterStep,
  within,
} from '../schemaKeys.ts';
import { USUAL_LIMITER } from './usualLimiter.ts';

/** What a maker reads off one capacitor at the bench. Stated errors are taken as twice the standard deviation. */
const capacitorReadingsSchema = z.strictObject({
  discharge: rowsOf('timed discharges through a resistor', [0, 20], {
    resistor_ohm: within(1e-3, 1e7).meta({ title: 'the resistor it is discharged through' }),
    held_h: from0.max(1000).default(0.5).meta({
      title: 'hours at the first voltage before the resistor is put on',
      assumption: 'half an hour, as the usual test has it',
    }),
    points: rowsOf('two voltages with their times, or more; the first as it begins', [2, 200], {
      seconds: within(0, 1e7).meta({ title: 'time since the resistor was put on' }),
      voltage_V: within(1e-4, 10).meta({ title: 'voltage on the resistor then' }),
    }),
  }).default([]),
  rest: keysOf('voltage left after an hour, a day and three days at rest', {
    from_V: within(1e-3, 10).meta({ title: 'voltage as the charger was taken off' }),
    held_h: from0.max(1000).default(0.5).meta({
      title: 'hours at that voltage before',
      assumption: 'half an hour',
    }),
    capacitor_degC: benchTemperature('temperature while at rest', 80),
    after: rowsOf('voltages after some rest, with nothing connected between', [1, 200], {
      hours: within(1e-3, 1e5).meta({ title: 'hours at rest' }),
      voltage_V: within(1e-4, 10).meta({ title: 'voltage then' }),
    }),
  }).optional(),
  voltage_error_percent: voltmeterError,
  voltage_step_mV: voltmeterStep('a range of 2 V on a meter of 2000 counts; 10 mV above 2 V on such a meter'),
  resistor_error_percent: errorOf(1, 20, 'the resistor', 'metal film, or measured'),
  time_error_s: errorOf(2, 3600, 'each time of a discharge', 'a stopwatch and a display to watch'),
});

export type CapacitorReadings = z.infer<typeof capacitorReadingsSchema>;

/** A part that holds the bank below a voltage. */
const limiterSchema = keysOf('a part that draws the surplus away above a voltage', {
  at_V: within(0.1, 100).meta({ title: 'bank voltage at which the limiter begins to draw' }),
  slope_ohm: within(1e-4, 100).default(USUAL_LIMITER.slope_ohm).meta({
    title: 'rise of the voltage with the current that it draws',
    assumption: 'a shunt regulator with a small transistor',
  }),
  ...boughtFor(USUAL_LIMITER.price, 'a reference and a transistor, in euros or dollars, from memory'),
});

/** The capacitor: a bank of supercapacitors, one part's datasheet or `raw` model parameters. */
export const capacitorSchema = z.strictObject({
  part: z.string().optional().meta({ title: 'name of a capacitor in the parts library' }),
  raw: keysOf('model parameters of one part instead of datasheet values', {
    capacitance_F: within(1e-3, 1e7).meta({ title: 'capacitance at 0 V' }),
    rise_F_V: within(0, 1e5).default(0).meta({ title: 'rise of dQ/dV with voltage' }),
    series_ohm: within(0, 1000).default(0).meta({ title: 'series resistance' }),
    leakage_ohm: within(1, 1e12).optional().meta({ title: 'leakage as a resistance' }),
    delayed_branches: rowsOf('delayed branches beside the main capacitance', [0, 2], {
      resistance_ohm: within(1e-4, 1e9).meta({ title: 'resistance of the branch' }),
      capacitance_F: within(1e-6, 1e5).meta({ title: 'capacitance of the branch' }),
    }).default([]),
  }).optional(),
  readings: capacitorReadingsSchema
    .optional()
    .meta({ title: 'readings at the bench of one part; they win over datasheet values beside them' }),
  capacitance_F: within(1e-3, 1e5).optional().meta({
    title: 'rated capacitance of one part: timed discharge from 0.8 to 0.4 of the rated voltage',
  }),
  kind: z.enum(['double-layer', 'lithium-hybrid']).optional().meta({
    title:
      'a double-layer capacitor, or a hybrid with a lithium electrode, which must not be discharged far; double-layer where not given',
  }),
  rated_V: within(0.1, 10).meta({ title: 'rated voltage of one part' }),
  lowest_V: within(0, 10).optional().meta({
    title:
      'voltage that one part must not fall below; hours below it are flagged; 2.2 V of a lithium hybrid (from memory), 0 of others where not given',
  }),
  esr_mohm: within(0, 1e6)
    .default(10)
    .meta({
      title: 'equivalent series resistance of one part',
      assumption: 'a part of some 100 F; nothing beside the cell',
      between: [3, 50],
    }),
  esr_factor_minus20: z
    .number()
    .min(1)
    .max(100)
    .default(1.5)
    .meta({
      title: 'how many times larger that resistance is at -20 degC than at 25 degC',
      assumption: 'a small double-layer capacitor, from memory; 1.3 to 3 by its solvent',
      between: [1.3, 3],
    }),
  esr_factor_minus40: z.number().min(1).max(1000).default(2.5).meta({
    title: 'the same at -40 degC',
    assumption: 'the same, from memory; 2 to 10 by its solvent',
  }),
  lowest_degC: lowestTemperature.unwrap().default(-40).meta({
    title: 'lowest temperature that one part is rated for; hours in which the jar is colder are flagged',
    assumption: 'most double-layer capacitors, from memory; others, and most lithium hybrids, have -25',
  }),
  capacitance_rise: from0
    .max(2)
    .default(0.15)
    .meta({
      title: 'rise of dQ/dV from 0 V to the rated voltage, as a share of its value at 0 V',
      assumption: 'typical of recent parts, from memory; older ones rise far more',
      between: [0.05, 0.4],
    }),
  delayed_share: from0
    .max(1)
    .default(0.1)
    .meta({
      title: 'charge that creeps in and out slowly, as a share of the rated capacitance; 0 switches it off',
      assumption: 'the middle of 5 to 15 percent, half of it within hours and half within a fifth of an hour',
      between: [0.05, 0.15],
    }),
  delayed_hours: within(0.05, 1000)
    .default(3)
    .meta({
      title: 'time constant of the slower half of that charge',
      unit: 'h',
      assumption: 'from memory; the quicker half follows in a tenth of it',
      between: [1, 10],
    }),
  leakage_uA: within(0, 1e6).optional().meta({
    title: 'leakage current of one part at the rated voltage and 25 degC, after leakage_rest_h',
  }),
  leakage_rest_h: within(1e-3, 1e5).default(72).meta({
    title: 'hours at the rated voltage before that current was read',
    assumption: 'the usual 72 h of datasheets',
  }),
  leakage_law: z
    .enum(['exponential', 'resistance'])
    .default('exponential')
    .meta({
      title: 'how the leakage falls with voltage',
      assumption: 'falls steeply below the rated voltage; a resistance is for comparison runs',
      between: ['exponential', 'resistance'],
    }),
  leakage_e_fold_V: z
    .number()
    .min(0.02)
    .max(100)
    .default(0.3)
    .meta({
      title: 'voltage step that changes the leakage by a factor of e',
      assumption: 'no source; measure the voltage after three days at rest to know',
      between: [0.2, 0.6],
    }),
  leakage_doubling_K: within(3, 1000)
    .default(10)
    .meta({
      title: 'warming that doubles the leakage',
      assumption: 'from memory',
      between: [7, 15],
    }),
  life: keysOf(
    'how long one part lasts, as its datasheet has it; 1000 h at 65 degC where nothing is stated',
    {
      hours: within(10, 1e6).meta({ title: 'rated life at that voltage and temperature', unit: 'h' }),
      at_degC: z.number().min(20).max(150).meta({ title: 'temperature of that life' }),
      at_V: within(0.1, 10)
        .optional()
        .meta({ title: 'voltage of one part in it; the rated voltage where not given' }),
      capacitance_left: within(0.3, 0.99).default(0.7).meta({
        title: 'share of the capacitance that is left at its end',
        assumption: 'most datasheets: 30 percent less, from memory; others 20',
      }),
      esr_times: within(1, 10).default(2).meta({
        title: 'how many times larger the series resistance is then',
        assumption: 'most datasheets, from memory',
      }),
      leakage_times: within(0.5, 10).default(2).meta({
        title: 'how many times larger the leakage is then',
        assumption: 'no source; some parts leak less with the years',
      }),
    },
  ).optional(),
  ...bought,
  price_per_F: within(0, 1e4).optional().meta({
    title: 'price that each farad of one part adds to its price',
    unit: '1',
  }),
  parallel: z.number().int().min(1).max(1000).default(1).meta({ title: 'parts in parallel' }),
  series: z.number().int().min(1).max(10).default(1).meta({ title: 'parts in series' }),
  balancing_kohm: within(1e-3, 1e6)
    .optional()
    .meta({ title: 'balancing resistor across each part of a series bank' }),
  limiter: limiterSchema.optional(),
});

export type CapacitorSection = z.infer<typeof capacitorSchema>;
