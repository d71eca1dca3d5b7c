import * as z from 'zod';
import { ammeterStep, bought, errorOf, from0, lowestTemperature, rowsOf, within } from '../schemaKeys.ts';

/** What a maker reads off a driver at the bench. Stated errors are taken as twice the standard deviation. */
const driverReadingsSchema = z.strictObject({
  rows: rowsOf(
    'currents at some capacitor voltages; supply, or LED current with its voltage, or all',
    [0, 50],
    {
      capacitor_V: within(1e-3, 20).meta({ title: 'voltage at the terminals of the driver, LED lit' }),
      supply_mA: within(1e-4, 20_000).optional().meta({ title: 'current drawn' }),
      led_mA: within(1e-4, 20_000).optional().meta({ title: 'mean LED current' }),
      led_V: within(0.1, 40).optional().meta({ title: 'voltage across the LEDs' }),
    },
  ).default([]),
  cutoff_V: from0.max(20).optional().meta({ title: 'capacitor voltage at which it stopped' }),
  restarts_V: from0.max(20).optional().meta({ title: 'capacitor voltage at which it started again' }),
  standby_uA: within(0, 1e6).optional().meta({ title: 'current drawn with the LED switched off' }),
  current_error_percent: errorOf(2, 20, 'each current in percent', 'a plain multimeter on a pulsed current'),
  current_step_mA: ammeterStep('last digit of the ammeter'),
});

export type DriverReadings = z.infer<typeof driverReadingsSchema>;

const shared = {
  part: z.string().optional().meta({ title: 'name of a driver in the parts library' }),
  lowest_degC: lowestTemperature,
  ...bought,
  price: bought.price.meta({ title: "price of the driver with its inductor, in the scenario's currency" }),
  readings: driverReadingsSchema
    .optional()
    .meta({ title: 'readings at the bench; they win over the values beside them' }),
  efficiency: z
    .union([
      within(0.001, 1),
      z
        .array(
          z.strictObject({
            capacitor_V: within(0, 100).meta({ title: 'capacitor voltage' }),
            efficiency: within(0.001, 1).meta({ title: 'LED power over power drawn' }),
          }),
        )
        .min(1),
    ])
    .default(0.8)
    .meta({
      title: 'LED power over power drawn, a number or a table against the capacitor voltage',
      assumption: 'small boosts give 70 to 88 percent, least from a low capacitor: from memory',
      between: [0.7, 0.88],
    }),
  cutoff_V: from0
    .max(20)
    .default(0.9)
    .meta({
      title: 'capacitor voltage at which the driver stops',
      assumption: 'typical of small boost drivers, from memory',
      between: [0.8, 1],
    }),
  restart_V: from0.max(20).optional().meta({
    title: 'capacitor voltage at which it starts again; 0.1 V above the cut-off unless stated',
  }),
  restart_needs: z.enum(['voltage', 'dusk']).default('voltage').meta({
    title: 'whether a stopped driver comes back on voltage alone, or only at the next dusk',
    assumption: 'voltage alone',
  }),
  cutoff_watches: z.enum(['always', 'while-lit']).default('always').meta({
    title:
      'whether the cut-off watches the capacitor all day, as a comparator does (one that sinks below it by day stays off until restart_V), or only while the LED is lit',
    assumption: 'a comparator watches at all hours',
  }),
  standby_uA: within(0, 1e6)
    .default(5)
    .meta({
      title: 'current drawn from the capacitor while the LED is off',
      assumption: 'typical of small boost drivers, from memory',
      between: [1, 30],
    }),
  below_cutoff_uA: within(0, 1e6)
    .default(2)
    .meta({
      title: 'current drawn at the cut-off once stopped; falls with the voltage',
      assumption: 'from memory',
      between: [0.5, 10],
    }),
};

/** The driver between capacitor and LED. */
export const driverSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('power').meta({ title: 'draws a constant power' }),
    power_mW: within(1e-3, 1e5).meta({ title: 'power drawn from the capacitor' }),
    ...shared,
  }),
  z.strictObject({
    kind: z.literal('current').meta({ title: 'draws a constant current' }),
    current_mA: within(1e-3, 50_000).meta({ title: 'current drawn from the capacitor' }),
    ...shared,
  }),
  z.strictObject({
    kind: z.literal('conductance').meta({ title: 'draws in proportion to the voltage' }),
    conductance_mS: within(1e-3, 1e5).meta({ title: 'current over voltage' }),
    ...shared,
  }),
  z.strictObject({
    kind: z.literal('boost').meta({
      title: 'an inductor boost in discontinuous conduction: the inductor empties each cycle',
    }),
    inductance_uH: within(0.01, 1e6).meta({ title: 'inductance' }),
    frequency_kHz: within(0.01, 1e5).meta({ title: 'switching frequency' }),
    duty: z.number().min(0.01).max(0.95).meta({ title: 'share of the cycle the switch is on' }),
    rectifier_drop_V: from0
      .max(2)
      .default(0)
      .meta({
        title: 'drop of the rectifier between inductor and LED',
        assumption: 'synchronous',
        between: [0, 0.3],
      }),
    current_limit_mA: within(0.01, 50_000).optional().meta({
      title:
        "current drawn with the capacitor above (1 - duty) times the output, where the driver's own current limit decides",
    }),
    ...shared,
  }),
  z.strictObject({
    kind: z.literal('table').meta({ title: 'measured: current against capacitor voltage' }),
    table: rowsOf('rows with rising capacitor voltage; straight lines between, end values beyond', [2], {
      capacitor_V: within(0, 100).meta({ title: 'capacitor voltage' }),
      current_mA: within(0, 50_000).meta({ title: 'current drawn from the capacitor' }),
    }).optional(),
    ...shared,
  }),
]);

export type DriverSection = z.infer<typeof driverSchema>;
