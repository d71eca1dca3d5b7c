import { sum } from 'd3-array';
import { expm1 } from '../common/elementary/exp.ts';
import { log } from '../common/elementary/log.ts';
import { bisect } from '../common/numeric.ts';
import { CellDiodeCircuit } from '../lamp/CellDiodeCircuit.ts';
import { benchVoltages } from '../lamp/capacitor/step.ts';
import { diodeDrop_V } from '../lamp/diode/step.ts';
import { LitLoad } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import { circuitHours } from '../year/circuitHours.ts';
import { LampStepper } from '../year/LampStepper.ts';
import type { NightPlan } from '../year/NightPlan.ts';
import { type YearInput, YearRun } from '../year/YearRun.ts';

/** Everything at the bench has this temperature. */
export const BENCH_DEG_C = 20;
/** Ammeter on its range of 10 A, leads included: from memory. */
const AMMETER_OHM = 0.02;

/** The bare cell in a light, W/m2, with an ammeter where the blocking diode would be: solve(0) is its short circuit. */
export function bareCell({ cell, diode }: LampParams, light_W_m2: number): CellDiodeCircuit {
  const meter = { ...diode, kind: 'switch', on_ohm: AMMETER_OHM, series_ohm: 0, leak_S: 0 } as const;
  const circuit = new CellDiodeCircuit(cell, meter);
  circuit.setConditions(light_W_m2, BENCH_DEG_C);
  return circuit;
}

/** What a voltmeter across the blocking diode shows, volts, fed from a supply through a resistor. */
export function dropBehind({ diode }: LampParams, supply_V: number, load_ohm: number): number {
  const drop_V = (current_A: number) =>
    diode.kind === 'switch'
      ? current_A * (diode.on_ohm + diode.series_ohm)
      : diodeDrop_V(diode, current_A, BENCH_DEG_C);
  let shown_V = 0;
  // Each round shrinks the miss by the slope of the diode against the resistor.
  for (let round = 0; round < 50; round++)
    shown_V = shown_V + 0.5 * (drop_V((supply_V - shown_V) / load_ohm) - shown_V);
  return shown_V;
}

/** From which voltage down to which, after how long at the first, through what. */
export interface DischargeCourse {
  from_V: number;
  to_V: number;
  held_h: number;
  load_ohm: number;
}

const DISCHARGE_POINTS = 300;
/** Further apart than any real part has them: what is quickest would need too many steps. */
const FAR_APART = 20_000;
/** Nor is a part meant to be read whose own resistance is so much of the load's: the bank would stand far above what is read. */
const MOST_OF_LOAD = 0.2;

/**
 * Minutes that the capacitor bank takes on a resistor from a voltage down to another.
 *
 * in: bank; course, from_V above to_V, above 0
 * valid: where delayed branches dwarf the bank, or its own resistance comes near the load's, no longer than that: each
 *   of them emptied after the other
 */
export function dischargeMinutes(bank: LampParams['capacitor'], course: DischargeCourse): number {
  const { from_V, to_V, held_h } = course;
  const load_ohm = 1 / (1 / course.load_ohm + bank.balancing_S);
  const branches = bank.delayed.filter(({ capacitance_F }) => capacitance_F > 0);
  const whole_F = sum([
    bank.capacitance_F,
    bank.rise_F_V * from_V,
    ...branches.map((one) => one.capacitance_F),
  ]);
  const constants_s = branches.map(({ resistance_ohm, capacitance_F }) => resistance_ohm * capacitance_F);
  const about_s = load_ohm * whole_F * log(from_V / to_V);
  const slow_s = about_s * (1 + bank.series_ohm / load_ohm) + sum(constants_s) * log(from_V / to_V);
  const farApart = slow_s > FAR_APART * Math.min(load_ohm * bank.capacitance_F, ...constants_s);
  if (farApart || bank.series_ohm > MOST_OF_LOAD * load_ohm) return slow_s / 60;
  // Delayed charge that comes late can take longer than that.
  for (let last_s = 1.5 * about_s; ; last_s *= 2) {
    const times_s = Array.from({ length: DISCHARGE_POINTS + 1 }, (_, k) => (k / DISCHARGE_POINTS) * last_s);
    const shown_V = benchVoltages(bank, {
      start_V: from_V,
      held_h,
      load_ohm,
      capacitor_degC: BENCH_DEG_C,
      times_s,
    });
    const after = shown_V.findIndex((voltage_V) => voltage_V <= to_V);
    if (after < 0) continue;
    const [high_V, low_V] = [shown_V[after - 1]!, shown_V[after]!];
    const passed = (high_V - to_V) / (high_V - low_V);
    return (times_s[after - 1]! + passed * (times_s[after]! - times_s[after - 1]!)) / 60;
  }
}

/** What the lit driver draws and gives; by its formula too where no limit is stated. */
export function drawnAt(
  { load, driver }: LampParams,
  capacitor_V: number,
): { supply_mA: number; led_mA: number } {
  const draw = new LitLoad(load);
  const limit_A = driver.law.limited?.current_A(capacitor_V, 0) ?? 0;
  draw.setAbove(capacitor_V >= load.dcmBoundary_V && !Number.isNaN(limit_A));
  draw.terminal_V = capacitor_V;
  draw.read();
  return { supply_mA: draw.current_A * 1000, led_mA: draw.led_A(capacitor_V) * 1000 };
}

/**
 * The voltage, volts, at which the capacitor of a lamp settles in steady light with its LED off.
 *
 * in: lamp; light_W_m2 on the cell, above 0; temperature_degC of everything
 * out: volts; 0 where the light lifts nothing
 */
export function steadyReachable_V(
  lamp: LampParams,
  light_W_m2: number,
  temperature_degC = BENCH_DEG_C,
): number {
  const stepper = new LampStepper(lamp);
  stepper.setHour(circuitHours(lamp, [light_W_m2], [temperature_degC]), 0);
  const rate = (capacitor_V: number) => {
    stepper.restAt(capacitor_V);
    return stepper.settle();
  };
  const { highest_V } = stepper.curve;
  // Nothing draws: the capacitor follows the cell all the way.
  if (rate(highest_V) >= 0) return highest_V;
  return bisect(rate, 0, highest_V) ?? 0;
}

/**
 * Voltage of a capacitor after some time at rest, volts: cell dark, LED off, leakage, delayed charge and standby drawing.
 *
 * in: lamp; from_V, held for held_h before (delayed charge empty at first); hours at rest
 * throws: Error where a step cannot be solved (a defect)
 */
export function restingVoltage_V(lamp: LampParams, from_V: number, held_h: number, hours: number): number {
  // Nothing is drawn of what was never filled.
  if (from_V === 0) return 0;
  const stepper = new LampStepper(lamp);
  stepper.restAt(from_V);
  const [filled1_V, filled2_V] = lamp.capacitor.delayed.map(({ resistance_ohm, capacitance_F }) =>
    capacitance_F === 0 ? from_V : from_V * -expm1((-held_h * 3600) / (resistance_ohm * capacitance_F)),
  );
  stepper.delayed.one.voltage_V = filled1_V!;
  stepper.delayed.two.voltage_V = filled2_V!;
  const count = Math.ceil(hours);
  const jar_degC = new Float64Array(count).fill(BENCH_DEG_C);
  const input: YearInput = {
    count,
    hours: circuitHours(lamp, new Float64Array(count), jar_degC),
    jar_degC,
    plan: undisturbed(hours * 3600),
    leastLight_lm: 0,
  };
  new YearRun(stepper, input).run();
  return stepper.main_V;
}

/** Hours in which nothing is switched. */
function undisturbed(to_s: number): NightPlan {
  const none = new Float64Array();
  return {
    from_s: 0,
    to_s,
    nights: 1,
    count: 0,
    at_s: none,
    what: new Uint8Array(),
    value: none,
    glow: none,
  };
}
