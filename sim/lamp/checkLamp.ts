import { FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C } from '../common/constants.ts';
import { significant } from '../common/Estimate.ts';
import type { Report } from '../common/InputProblem.ts';
import { bisect } from '../common/numeric.ts';
import { CellDiodeCircuit } from './CellDiodeCircuit.ts';
import { leakageCurrent_A, leakageWarming, seriesGrowthAt } from './capacitor/step.ts';
import { LitLoad } from './loadTable.ts';
import type { LampParams } from './params.ts';
import { usualShare } from './schedule/motion.ts';
import type { ScheduleSection } from './schedule/schema.ts';

/** A start so far above the rated voltage is a slip. */
const MOST_OF_RATED = 1.5;

/** A cell of so many times the bank's rated voltage is no part of a lamp, whatever a limiter takes. */
const MOST_DRIVEN = 20;
/** A series resistance takes at most so many times the cell's open circuit from its short-circuit current. */
const MOST_LOST = 1.25;

/** A clear cold day: the cell's voltage, and with it the reachable voltage, is highest then. */
const COLD_DEG_C = -20;

/**
 * Whether the parts of a lamp fit together, from its reachable voltage in full sun.
 *
 * in: lamp; report, takes what cannot work, with key paths below the lamp; startCapacitor_V, where the scenario starts
 *   the capacitor at a voltage
 * out: sentences a maker must see, of what is allowed but harmful
 * valid: reachable voltages in steady light of 1000 W/m2 at 25 degC (for a limit
 *   that must hold in winter too, at -20 degC), or at the jar's fixed temperature
 */
export function checkLamp(lamp: LampParams, report: Report, startCapacitor_V?: number): string[] {
  const { driver, capacitor, led, load } = lamp;
  const reachable_V = fullSunReachable_V(lamp, STANDARD_TEMPERATURE_DEG_C);
  const start_V = startCapacitor_V ?? 0;
  const flags: string[] = [];

  if (driver.cutoff_V >= reachable_V) {
    report({
      code: 'LAMP_CUTOFF_ABOVE_REACHABLE',
      path: ['driver', 'cutoff_V'],
      got: `a cut-off of ${volts(driver.cutoff_V)}, and a reachable voltage of ${volts(reachable_V)} in full sun at ${STANDARD_TEMPERATURE_DEG_C} degC`,
      expected: 'a cut-off below the reachable voltage: this capacitor can never light the LED',
      fix: 'lower cutoff_V, or take a cell of more voltage or a diode of less drop.',
    });
    return flags;
  }

  const lit = new LitLoad(load);
  lit.terminal_V = driver.cutoff_V;
  lit.read();
  const litAtCutoff_A = lit.current_A;
  const cold_degC = jarAt_degC(lamp, COLD_DEG_C);
  const rebound_V = litAtCutoff_A * capacitor.series_ohm * seriesGrowthAt(capacitor, cold_degC);
  if (driver.restart_V - driver.cutoff_V < rebound_V) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['driver', 'restart_V'],
      got: `${volts(driver.restart_V)}, ${volts(driver.restart_V - driver.cutoff_V)} above the cut-off`,
      expected: `more than ${volts(rebound_V)} above it: so far the capacitor springs back when ${(litAtCutoff_A * 1000).toPrecision(3)} mA stop flowing through its resistance at ${cold_degC} degC`,
      fix: 'raise restart_V, or lower the resistance of the capacitor.',
    });
  }

  checkCell(lamp, report);
  flags.push(...heldBy(lamp.schedule));
  flags.push(...checkOutput(lamp, reachable_V, start_V, report));
  if (reachable_V > capacitor.rated_V) {
    flags.push(
      `Above the rated voltage: full sun drives the capacitor to ${volts(reachable_V)} at ${STANDARD_TEMPERATURE_DEG_C} degC, and it is rated ${volts(capacitor.rated_V)}. That ages it fast and can burst it; a limiter or a cell of less voltage prevents it.`,
    );
  }
  const lit_A = lit.led_A(reachable_V);
  const tabled_A = led.current_A[led.current_A.length - 1]!;
  if (led.current_A.length > 1 && lit_A > 1.001 * tabled_A) {
    flags.push(
      `Beyond the LED's table: a full capacitor drives ${(1000 * lit_A).toFixed(0)} mA where the table ends at ${(1000 * tabled_A).toFixed(0)} mA; its light there is a guess, and the LED may not stand it.`,
    );
  }
  flags.push(...checkStart(capacitor.rated_V, start_V, report));
  return flags;
}

/** A resistance through which the cell could not drive what it gives, were all of its voltage left for that; or far too much of that. */
function checkCell({ cell, diode, capacitor }: LampParams, report: Report): void {
  const bare = new CellDiodeCircuit(cell, { ...diode, series_ohm: 0 });
  bare.setConditions(FULL_SUN_W_M2, STANDARD_TEMPERATURE_DEG_C);
  const [short_A, open_V] = [bare.solve(0), bare.openCircuit_V];
  const most_V = MOST_DRIVEN * capacitor.rated_V;
  if (open_V > most_V) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['capacitor', 'rated_V'],
      got: `a bank rated ${volts(capacitor.rated_V)} on a cell of ${volts(open_V)} in full sun`,
      expected: `a cell of ${volts(most_V)} at most: no capacitor outlives more`,
      fix: 'take fewer cells in series, or more capacitors; or is one of the two in another unit?',
    });
  }
  const most_ohm = (MOST_LOST * open_V) / short_A;
  for (const [part, key, ohm] of [
    ['diode', 'series_ohm', diode.series_ohm],
    ['diode', 'switch_on_ohm', diode.kind === 'switch' ? diode.on_ohm : 0],
    ['capacitor', 'esr_mohm', capacitor.series_ohm],
  ] as const) {
    if (ohm <= most_ohm) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [part, key],
      got: `${significant(ohm, 3)} ohm behind a cell of ${(short_A * 1000).toPrecision(3)} mA`,
      expected: `at most ${significant(most_ohm, 2)} ohm: more takes all of the cell's ${volts(open_V)} in full sun`,
      fix: 'is it in another unit? No maker would lose so much',
    });
  }
}

/** What a start above the rated voltage of the bank comes to. */
function checkStart(rated_V: number, start_V: number, report: Report): string[] {
  if (start_V <= rated_V) return [];
  if (start_V <= MOST_OF_RATED * rated_V)
    return [
      `Above the rated voltage: the capacitor starts at ${volts(start_V)}, and it is rated ${volts(rated_V)}.`,
    ];
  report({
    code: 'SCENARIO_OUT_OF_RANGE',
    path: ['capacitor', 'rated_V'],
    got: `a start at ${volts(start_V)} on a bank rated ${volts(rated_V)}`,
    expected: `at most ${volts(MOST_OF_RATED * rated_V)}: no capacitor stands more for long`,
    fix: 'lower start.capacitor_V, or put capacitors in series.',
  });
  return [];
}

/** What the promise of a lamp that flashes or waits for motion is held against. */
function heldBy(schedule: ScheduleSection): string[] {
  const { on_share, motion } = schedule;
  const percent = `${Number((100 * usualShare(schedule)).toPrecision(2))} percent of its time`;
  const sentences: string[] = [];
  if (on_share < 1)
    sentences.push(
      `It flashes (on_share ${on_share}): what counts as lit is its light while on. Pulses too fast to be seen are dimming: dim: [{ after_h: 0, light_share: ${on_share} }].`,
    );
  if (motion !== undefined)
    sentences.push(
      `It waits for motion, expected ${motion.triggers_per_h} times an hour and drawn by the seed, and is on for some ${percent}; it counts as lit while it would shine if motion came.`,
    );
  return sentences;
}

/** Whether the capacitor stays below a boost's output, and the driver knows what to draw as high as it comes. */
function checkOutput(lamp: LampParams, reachable_V: number, start_V: number, report: Report): string[] {
  const { driver, capacitor, led } = lamp;
  const { law } = driver;
  const lowest_V = law.conductsFrom_V(led.forward_V[0]!);
  const highest_V = law.conductsFrom_V(led.forward_V.at(-1)!);
  const boundary_V = law.dcmBoundary_V(lowest_V);
  const reached_V = Math.max(reachable_V, start_V);
  if (reached_V >= lowest_V) {
    const what = start_V > reachable_V ? 'starts at' : 'reaches';
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['driver', 'kind'],
      got: `a capacitor that ${what} ${volts(reached_V)} on a boost whose output is ${volts(lowest_V)}`,
      expected:
        'a capacitor that stays below the output: above it, it conducts straight through inductor and rectifier into the LED',
      fix: `add capacitor.limiter: { at_V: ${(lowest_V - 0.1).toFixed(1)} }, take LEDs in series, or another kind of driver.`,
    });
    return [];
  }
  const cold_V = Math.max(fullSunReachable_V(lamp, COLD_DEG_C), reached_V);
  if (cold_V > boundary_V && Number.isNaN(law.limited?.current_A(cold_V, lowest_V))) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['driver', 'current_limit_mA'],
      got: 'nothing',
      expected: `the current drawn above ${volts(boundary_V)}, where the driver's own current limit decides; on clear cold days the capacitor reaches ${volts(cold_V)}`,
      fix: 'add current_limit_mA, or take a driver of kind table.',
    });
  }
  if (capacitor.rated_V < highest_V || capacitor.limiter_V < lowest_V) return [];
  return [
    `The capacitor is rated ${volts(capacitor.rated_V)}, above the LED's ${volts(highest_V)}: filled by anything but this cell (${volts(reachable_V)}) it would conduct straight through the boost into the LED.`,
  ];
}

/** A lamp in steady full sun. */
export interface FullSun {
  /** Capacitor voltage at which what the cell gives equals leakage, standby, balancing and limiter. */
  reachable_V: number;
  /** Current into a capacitor that stands at the driver's cut-off. */
  atCutoff_A: number;
}

/**
 * The voltage, in volts, up to which steady full sun fills the capacitor, and the current with which it begins at the cut-off.
 *
 * in: lamp; temperature_degC, of cell and capacitor
 * out: volts and amperes
 * valid: steady light of 1000 W/m2
 */
export function fullSunReachable(
  { cell, diode, capacitor, driver }: Pick<LampParams, 'cell' | 'diode' | 'capacitor' | 'driver'>,
  temperature_degC: number,
): FullSun {
  const path = new CellDiodeCircuit(cell, diode);
  path.setConditions(FULL_SUN_W_M2, temperature_degC);
  const warming = leakageWarming(capacitor, temperature_degC);
  const drain_A = (v: number) =>
    driver.standby_A +
    leakageCurrent_A(capacitor, v) * warming +
    v * capacitor.balancing_S +
    Math.max(0, v - capacitor.limiter_V) / capacitor.limiter_ohm;
  return {
    reachable_V: bisect((v) => path.reachable_V(drain_A(v)) - v, 0, path.openCircuit_V) ?? 0,
    atCutoff_A: path.solve(
      driver.cutoff_V,
      capacitor.series_ohm * seriesGrowthAt(capacitor, temperature_degC),
    ),
  };
}

/** The same at the jar's fixed temperature, where it has one. */
function fullSunReachable_V(lamp: LampParams, air_degC: number): number {
  return fullSunReachable(lamp, jarAt_degC(lamp, air_degC)).reachable_V;
}

function jarAt_degC({ jar: { fixed_degC } }: LampParams, air_degC: number): number {
  return Number.isNaN(fixed_degC) ? air_degC : fixed_degC;
}

function volts(value_V: number): string {
  return `${value_V.toFixed(2)} V`;
}
