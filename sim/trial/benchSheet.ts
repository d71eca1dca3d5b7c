import { FULL_SUN_W_M2 } from '../common/constants.ts';
import type { Inductor } from '../lamp/driver/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { LampSection } from '../lamp/schema.ts';
import { settledLamp } from '../lamp/settledLamp.ts';
import type { ScenarioLamp } from '../scenario/Scenario.ts';
import type { BenchPart, BenchSheet, BenchWire } from './BenchRows.ts';
import { benchChecks } from './benchChecks.ts';
import { CAUTIONS } from './cautions.ts';
import { steadyReachable } from './steadyReachable.ts';
import { BAND_WORDS } from './toleranceBand.ts';

/** A summer afternoon. */
const WARM_DEG_C = 30;

/**
 * The build and bench sheet of one lamp: parts, wires, what to measure and what to expect, sealing, cautions.
 *
 * in: lamp of a scenario
 * out: plain data; a lamp with readings shows what they settled
 */
export function benchSheet({ name, section: given, params, flags }: ScenarioLamp): BenchSheet {
  const section = settledLamp(given);
  const parts = partsOf(section, params);
  const costs = parts.flatMap(({ cost }) => (cost === undefined ? [] : [cost]));
  return {
    lamp: name,
    parts,
    ...(costs.length === 0 ? {} : { cost: costs.reduce((sum, cost) => sum + cost, 0) }),
    unpriced: parts
      .filter(({ cost, included }) => cost === undefined && included === undefined)
      .map(({ part }) => part),
    wires: wiresOf(section, params.driver.law.inductor !== undefined),
    checks: benchChecks(params),
    tolerances: [
      ...BAND_WORDS,
      'all of these common practice, no source; a band is where good parts end up: each tolerance alone moves the reading, and the moves are added as the root of their squares.',
    ],
    sealing: sealingOf(params),
    flags,
    cautions: CAUTIONS,
  };
}

function partsOf({ cell, diode, capacitor, driver, led, jar }: LampSection, params: LampParams): BenchPart[] {
  const short_A = params.cell.photocurrent_A;
  const { inductor } = params.driver.law;
  const cells = cell.parallel * cell.series;
  const capacitors = capacitor.parallel * capacitor.series;
  const reachable_V = steadyReachable(params, FULL_SUN_W_M2, 20);
  const each_V = params.cell.openCircuit_V / cell.series;
  const each_A = short_A / cell.parallel;
  const named = (kind: string, part: string | undefined) => (part === undefined ? kind : `${kind}, ${part}`);
  return [
    priced(
      named('solar cell', cell.part),
      cells,
      `${each_V.toFixed(2)} V open, ${Number((each_A * 1000).toPrecision(3))} mA short in full sun at 25 degC`,
      cell.price,
    ),
    priced(
      named('blocking diode', diode.part),
      1,
      `at least ${Number((2 * short_A).toPrecision(2))} A forward and ${Math.ceil(2 * Math.max(params.capacitor.rated_V, params.cell.openCircuit_V))} V reverse, small drop`,
      diode.price,
    ),
    priced(
      named('supercapacitor', capacitor.part),
      capacitors,
      `${Number(wholeOf(params, capacitor).toPrecision(3))} F, ${capacitor.rated_V} V; the bank is rated ${params.capacitor.rated_V.toFixed(2)} V and reaches ${reachable_V.toFixed(2)} V`,
      capacitor.price,
    ),
    ...(capacitor.balancing_kohm === undefined
      ? []
      : [priced('balancing resistor', capacitors, `${capacitor.balancing_kohm} kohm`, undefined)]),
    ...(capacitor.limiter === undefined
      ? []
      : [
          priced(
            'limiter',
            1,
            `draws above ${capacitor.limiter.at_V} V, up to ${Number(short_A.toPrecision(2))} A`,
            undefined,
          ),
        ]),
    priced(named('driver', driver.part), 1, driverRating(params), driver.price),
    ...(inductor
      ? [
          {
            part: 'inductor (priced with the driver)',
            count: 1,
            rating: `${inductor.inductance_uH} uH, at least ${Number((1.3 * peak_mA(inductor, Math.min(reachable_V, params.capacitor.rated_V))).toPrecision(2))} mA before it saturates`,
            included: true as const,
          },
        ]
      : []),
    priced(
      named('LED', led.part),
      led.count * led.in_series,
      `${(params.led.forward_V[0]! / led.in_series).toFixed(2)} to ${(params.led.forward_V.at(-1)! / led.in_series).toFixed(2)} V forward`,
      led.price,
    ),
    priced(
      named('jar', jar.part),
      1,
      'lid for the cell, room for the capacitor away from the glass',
      jar.price,
    ),
  ];
}

function priced(part: string, count: number, rating: string, price: number | undefined): BenchPart {
  return { part, count, rating, ...(price === undefined ? {} : { price, cost: price * count }) };
}

/** Rated capacitance of one part, farads: the mean of dQ/dV from 0.8 to 0.4 of its rated voltage. */
function wholeOf({ capacitor }: LampParams, { parallel, series }: LampSection['capacitor']): number {
  return ((capacitor.capacitance_F + 0.6 * capacitor.rise_F_V * capacitor.rated_V) * series) / parallel;
}

/** Highest current of an inductor in discontinuous conduction, milliamperes. */
function peak_mA({ inductance_uH, frequency_kHz, duty }: Inductor, capacitor_V: number): number {
  return (capacitor_V * duty * 1e6) / (inductance_uH * frequency_kHz);
}

function driverRating({ driver }: LampParams): string {
  return `${driver.law.words}, stops at ${driver.cutoff_V} V, restarts at ${driver.restart_V.toFixed(2)} V, standby ${Number((driver.standby_A * 1e6).toPrecision(2))} uA`;
}

function wiresOf({ cell, capacitor, led, diode }: LampSection, inductor: boolean): BenchWire[] {
  const bank = (one: string, parallel: number, series: number) =>
    parallel * series === 1 ? one : `${one} bank`;
  const cells = bank('cell', cell.parallel, cell.series);
  const capacitors = bank('capacitor', capacitor.parallel, capacitor.series);
  const leds = bank('LED', led.count, led.in_series);
  const blocking = diode.switch_on_ohm === undefined ? 'diode' : 'ideal-diode switch';
  const [into, out] = diode.switch_on_ohm === undefined ? ['anode', 'cathode (ring)'] : ['input', 'output'];
  return [
    { from: `${cells} +`, to: `${blocking} ${into}` },
    { from: `${blocking} ${out}`, to: `${capacitors} +` },
    { from: `${cells} -`, to: `${capacitors} -` },
    ...(capacitor.limiter === undefined ? [] : [{ from: 'limiter', to: `${capacitors} + and -` }]),
    ...(capacitor.balancing_kohm === undefined
      ? []
      : [
          {
            from: `balancing resistors, ${capacitor.balancing_kohm} kohm`,
            to: 'across each part of the capacitor bank',
          },
        ]),
    {
      from: `${capacitors} +`,
      to: inductor ? 'driver + and one end of the inductor' : 'driver +',
    },
    ...(inductor ? [{ from: 'other end of the inductor', to: 'driver, switching pin' }] : []),
    { from: `${capacitors} -`, to: 'driver -' },
    { from: 'driver, LED +', to: `${leds} anode (long leg)` },
    { from: 'driver, LED -', to: `${leds} cathode` },
  ];
}

function sealingOf({ jar }: LampParams): string[] {
  const warm_degC = Number.isNaN(jar.fixed_degC)
    ? WARM_DEG_C + FULL_SUN_W_M2 * jar.rise_K_per_W_m2
    : jar.fixed_degC;
  return [
    `In full sun on a day of ${WARM_DEG_C} degC the air inside reaches about ${warm_degC.toFixed(0)} degC: take a capacitor rated for more than that, and keep it in the shade of the cell, away from the glass.`,
    'Lay the cell at a slope so that water and leaves run off, its edge bedded in silicone of the neutral kind (the acid kind eats copper); leave no trough around it. Common practice, no source.',
    'Lead wires out of the lid from beneath, in a loop that hangs lower than the hole, so that drops fall off before it. Common practice, no source.',
    'Leave a hole of about 4 mm at the lowest point, or stand the jar on its mouth: a closed jar breathes in damp air every evening and keeps the water. Common practice, no source.',
    'Coat the driver (not its plug contacts) against damp, relieve every wire of pull, insulate the leads of the capacitor, and close the lid only after the last check of this sheet. Common practice, no source.',
  ];
}
