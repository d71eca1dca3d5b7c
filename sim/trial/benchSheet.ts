import { FULL_SUN_W_M2 } from '../common/constants.ts';
import type { Inductor } from '../lamp/driver/step.ts';
import type { LampParams } from '../lamp/params.ts';
import { type PartLine, partsList, unpriced } from '../lamp/partsList.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { ScenarioLamp } from '../scenario/Scenario.ts';
import { benchCautions, type Discharge, dischargeOf } from './benchCare.ts';
import { type BenchCheck, benchChecks } from './benchChecks.ts';
import { steadyReachable_V } from './benchMeters.ts';
import { type Covers, coverCautions } from './cautions.ts';
import { coldFlag, type OverRating, overRating } from './overRating.ts';
import { BAND_WORDS } from './toleranceBand.ts';

/** A part to buy or to take from the drawer. */
export interface BenchPart extends Omit<PartLine, 'part' | 'name'> {
  /** Its name. */
  part: string;
  /** What it must be rated for, in words. */
  rating: string;
}

/** A wire of the lamp, from one terminal to another. */
export interface BenchWire {
  from: string;
  to: string;
}

/** What the sheet of any lamp carries. */
export interface SheetHead {
  lamp: string;
  /** What the scenario's check has against this lamp, and its bank of capacitors. */
  flags: string[];
  /** What can hurt whoever builds it. */
  cautions: string[];
}

/** The build and bench sheet of one lamp. */
export interface BuildSheet extends SheetHead {
  /** Step 0: how its capacitor is emptied. */
  discharge: Discharge;
  parts: BenchPart[];
  currency?: string;
  /** Sum of the costs that are known. */
  cost?: number;
  /** Parts without a price. */
  unpriced: string[];
  wires: BenchWire[];
  checks: BenchCheck[];
  /** What the bands rest on, in sentences. */
  tolerances: string[];
  /** Sealing, drainage, heat, glass. */
  sealing: string[];
}

/** A lamp that must be changed first: it would drive its capacitor above the rated voltage. */
export interface WithheldSheet extends SheetHead {
  withheld: OverRating;
}

export type BenchSheet = BuildSheet | WithheldSheet;

/** A summer afternoon. */
const WARM_DEG_C = 30;

/**
 * The build and bench sheet of one lamp: how to empty its capacitor, cautions, parts, wires, what to measure and what
 * to expect, sealing; of a lamp that would drive its capacitor above the rated voltage only what to change.
 *
 * in: lamp of a scenario; spots, where it may stand; currency of its prices, where it has a name
 * out: plain data; a lamp with readings shows what they settled
 */
export function benchSheet(
  { name, settled, params, flags }: Pick<ScenarioLamp, 'name' | 'settled' | 'params' | 'flags'>,
  spots: Covers,
  currency?: string,
): BenchSheet {
  const cautions = benchCautions(params, settled.capacitor);
  const withheld = overRating(params, settled);
  if (withheld !== undefined) return { lamp: name, flags, cautions, withheld };
  const parts = partsOf(settled, params);
  const costs = parts.flatMap(({ cost, included }) => (cost === undefined || included ? [] : [cost]));
  return {
    lamp: name,
    flags: [...flags, ...bankFlags(settled, params)],
    cautions,
    discharge: dischargeOf(params, settled.capacitor),
    parts,
    ...(currency !== undefined && { currency }),
    ...(costs.length > 0 && { cost: costs.reduce((sum, cost) => sum + cost, 0) }),
    unpriced: unpriced(settled),
    wires: wiresOf(settled, params.driver.law.inductor),
    checks: benchChecks(params, settled.capacitor.series),
    tolerances: [
      ...BAND_WORDS,
      'all of these common practice, no source; a band is where good parts end up: each tolerance alone moves the reading, and the moves are added as the root of their squares.',
    ],
    sealing: [...sealingOf(params), ...coverCautions(spots)],
  };
}

/** What is against the bank of capacitors, whatever its cell. */
function bankFlags({ capacitor }: LampSection, params: LampParams): string[] {
  const { lowest_V, rated_V } = params.capacitor;
  const { series, balancing_kohm } = capacitor;
  const { cutoff_V } = params.driver;
  const flags = [
    coldFlag(params),
    series > 1 && balancing_kohm === undefined
      ? `No balancing: ${series} capacitors in series drift apart, until one of them stands above its ${capacitor.rated_V.toFixed(2)} V though the bank is below ${rated_V.toFixed(2)} V. Fit a resistor across each (capacitor.balancing_kohm), and read each part before the lid is closed and every few months.`
      : undefined,
    cutoff_V < lowest_V
      ? `The driver stops at ${cutoff_V.toFixed(2)} V, and below ${lowest_V.toFixed(2)} V this capacitor is spoilt: take a driver that stops above that.`
      : undefined,
  ];
  return flags.filter((flag) => flag !== undefined);
}

function partsOf(section: LampSection, params: LampParams): BenchPart[] {
  const { capacitor } = section;
  const short_A = params.cell.photocurrent_A;
  const { rated_V } = params.capacitor;
  const reverse_V = Math.ceil(2 * Math.max(rated_V, params.cell.openCircuit_V));
  const reachable_V = steadyReachable_V(params, FULL_SUN_W_M2);
  const { lowest_V } = params.capacitor;
  const lowest = lowest_V > 0 ? `, must not sink below ${lowest_V.toFixed(2)} V` : '';
  const { inductor } = params.driver.law;
  const ratings: Readonly<Record<PartLine['part'], string>> = {
    cell: cellRating(section, params),
    diode: `at least ${digits(2 * short_A, 2)} A forward and ${reverse_V} V reverse, small drop`,
    capacitor: `${digits(whole_F(params, capacitor), 3)} F, ${capacitor.rated_V} V; the bank is rated ${rated_V.toFixed(2)} V${lowest} and reaches ${reachable_V.toFixed(2)} V`,
    balancing: `${capacitor.balancing_kohm} kohm`,
    limiter: `draws above ${capacitor.limiter?.at_V} V, up to ${digits(short_A, 2)} A`,
    driver: driverRating(params),
    inductor: inductor
      ? `${inductor.inductance_uH} uH, at least ${digits(1.3 * peak_mA(inductor, Math.min(reachable_V, rated_V)), 2)} mA before it saturates`
      : '',
    led: ledRating(section, params),
    jar: 'lid for the cell, room for the capacitor away from the glass',
  };
  return partsList(section).map(({ part, name, ...line }) => ({
    part: name,
    rating: ratings[part],
    ...line,
  }));
}

function digits(value: number, count: number): number {
  return Number(value.toPrecision(count));
}

function cellRating({ cell }: LampSection, params: LampParams): string {
  const each_V = params.cell.openCircuit_V / cell.series;
  const each_mA = (params.cell.photocurrent_A / cell.parallel) * 1000;
  return `${each_V.toFixed(2)} V open, ${digits(each_mA, 3)} mA short in full sun at 25 degC`;
}

function ledRating({ led }: LampSection, params: LampParams): string {
  const each_V = (at: number) => (params.led.forward_V.at(at)! / led.in_series).toFixed(2);
  return `${each_V(0)} to ${each_V(-1)} V forward`;
}

/** Rated capacitance of one part, farads: the mean of dQ/dV from 0.8 to 0.4 of its rated voltage. */
function whole_F({ capacitor }: LampParams, { parallel, series }: LampSection['capacitor']): number {
  return ((capacitor.capacitance_F + 0.6 * capacitor.rise_F_V * capacitor.rated_V) * series) / parallel;
}

/** Highest current of an inductor in discontinuous conduction, milliamperes. */
function peak_mA({ inductance_uH, frequency_kHz, duty }: Inductor, capacitor_V: number): number {
  return (capacitor_V * duty * 1e6) / (inductance_uH * frequency_kHz);
}

function driverRating({ driver }: LampParams): string {
  return `${driver.law.words}, stops at ${driver.cutoff_V} V, restarts at ${driver.restart_V.toFixed(2)} V, standby ${digits(driver.standby_A * 1e6, 2)} uA`;
}

function wiresOf({ cell, capacitor, led, diode }: LampSection, inductor: Inductor | undefined): BenchWire[] {
  const bank = (one: string, parallel: number, series: number) =>
    parallel * series === 1 ? one : `${one} bank`;
  const cells = bank('cell', cell.parallel, cell.series);
  const capacitors = bank('capacitor', capacitor.parallel, capacitor.series);
  const leds = bank('LED', led.count, led.in_series);
  const blocking = diode.switch_on_ohm === undefined ? 'diode' : 'ideal-diode switch';
  const [into, out] = diode.switch_on_ohm === undefined ? ['anode', 'cathode (ring)'] : ['input', 'output'];
  const wires: (BenchWire | undefined)[] = [
    { from: `${cells} +`, to: `${blocking} ${into}` },
    { from: `${blocking} ${out}`, to: `${capacitors} +` },
    { from: `${cells} -`, to: `${capacitors} -` },
    capacitor.limiter && { from: 'limiter', to: `${capacitors} + and -` },
    capacitor.balancing_kohm === undefined
      ? undefined
      : {
          from: `balancing resistors, ${capacitor.balancing_kohm} kohm`,
          to: 'across each part of the capacitor bank',
        },
    { from: `${capacitors} +`, to: inductor ? 'driver + and one end of the inductor' : 'driver +' },
    inductor && { from: 'other end of the inductor', to: 'driver, switching pin' },
    { from: `${capacitors} -`, to: 'driver -' },
    { from: 'driver, LED +', to: `${leds} anode (long leg)` },
    { from: 'driver, LED -', to: `${leds} cathode` },
  ];
  return wires.filter((wire) => wire !== undefined);
}

function sealingOf({ jar }: LampParams): string[] {
  const warm_degC = Number.isNaN(jar.fixed_degC)
    ? WARM_DEG_C + FULL_SUN_W_M2 * jar.rise_K_per_W_m2
    : jar.fixed_degC;
  return [
    `In full sun on a day of ${WARM_DEG_C} degC the air inside reaches about ${warm_degC.toFixed(0)} degC, and the glass grows hot to touch: take a capacitor rated for more, and keep it in the shade of the cell, away from the glass.`,
    'Lay the cell at a slope so that water and leaves run off, its edge bedded in silicone of the neutral kind (the acid kind eats copper); leave no trough around it. Resin, paint and silicone need open air.',
    'Lead wires out of the lid from beneath, in a loop that hangs lower than the hole: drops fall off there.',
    'Leave a hole of about 4 mm at the lowest point, or stand the jar on its mouth: a closed jar breathes in damp air every evening and keeps the water. Drill it into a metal lid; glass only with a bit for glass, kept wet, with goggles and gloves.',
    'Coat the driver (not its plug contacts) against damp, relieve every wire of pull, insulate the leads of the capacitor, and close the lid only after the last check of this sheet.',
  ];
}
