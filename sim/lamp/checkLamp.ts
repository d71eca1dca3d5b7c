import type { Complain } from '../common/Complaint.ts';
import { STANDARD_TEMPERATURE_DEG_C } from '../common/constants.ts';
import { driverCurrent_A } from './driver/step.ts';
import { fullSunCeiling } from './fullSunCeiling.ts';
import type { LampParams } from './params.ts';

/** A clear cold day: the cell's voltage, and with it the ceiling, is highest then. */
const COLD_DEG_C = -20;

/**
 * Whether the parts of a lamp fit together, from its ceiling in full sun.
 *
 * in: lamp; complain, takes what cannot work, with key paths below the lamp; startStore_V, where the scenario starts
 *   the store at a voltage
 * out: sentences a maker must see, of what is allowed but harmful
 * valid: ceilings in steady light of 1000 W/m2 at 25 degC (for a limit that must hold in winter too, at -20 degC), or
 *   at the jar's fixed temperature
 */
export function checkLamp(lamp: LampParams, complain: Complain, startStore_V?: number): string[] {
  const { driver, store, led, load } = lamp;
  const ceiling_V = fullSunCeiling_V(lamp, STANDARD_TEMPERATURE_DEG_C);
  const start_V = startStore_V ?? 0;
  const flags: string[] = [];

  if (driver.floor_V >= ceiling_V) {
    complain({
      code: 'LAMP_FLOOR_ABOVE_CEILING',
      path: ['driver', 'floor_V'],
      got: `a floor of ${volts(driver.floor_V)}, and a ceiling of ${volts(ceiling_V)} in full sun at ${STANDARD_TEMPERATURE_DEG_C} degC`,
      expected: 'a floor below the ceiling: this store can never light the LED',
      fix: 'lower floor_V, or take a cell of more voltage or a diode of less drop.',
    });
    return flags;
  }

  const litAtFloor_A = driverCurrent_A(driver.law, driver.floor_V, outputAt_V(lamp, driver.floor_V), false);
  const rebound_V = litAtFloor_A * store.series_ohm;
  if (driver.restart_V - driver.floor_V < rebound_V) {
    complain({
      code: 'SCENARIO_CONFLICT',
      path: ['driver', 'restart_V'],
      got: `${volts(driver.restart_V)}, ${volts(driver.restart_V - driver.floor_V)} above the floor`,
      expected: `more than ${volts(rebound_V)} above it: so far the store springs back when ${(litAtFloor_A * 1000).toPrecision(3)} mA stop flowing through its resistance`,
      fix: 'raise restart_V, or lower the resistance of the store.',
    });
  }

  const { law } = driver;
  if (law.kind === 'boost') {
    const lowest_V = led.forward_V[0]! + law.rectifier_V;
    const highest_V = led.forward_V.at(-1)! + law.rectifier_V;
    const reached_V = Math.max(ceiling_V, start_V);
    const cold_V = Math.max(fullSunCeiling_V(lamp, COLD_DEG_C), reached_V);
    if (reached_V >= lowest_V) {
      const what = start_V > ceiling_V ? 'starts at' : 'reaches';
      complain({
        code: 'SCENARIO_CONFLICT',
        path: ['driver', 'kind'],
        got: `a store that ${what} ${volts(reached_V)} on a boost whose output is ${volts(lowest_V)}`,
        expected:
          'a store that stays below the output: above it, it conducts straight through choke and rectifier into the LED',
        fix: `add store.limiter: { at_V: ${(lowest_V - 0.1).toFixed(1)} }, take LEDs in series, or another kind of driver.`,
      });
    } else if (Number.isNaN(law.limit_A) && cold_V > (1 - law.duty) * lowest_V) {
      complain({
        code: 'SCENARIO_MISSING_KEY',
        path: ['driver', 'current_limit_mA'],
        got: 'nothing',
        expected: `the current drawn above ${volts((1 - law.duty) * lowest_V)}, where the choke no longer runs empty; on clear cold days the store reaches ${volts(cold_V)}`,
        fix: 'add current_limit_mA, or take a driver of kind table.',
      });
    }
    if (reached_V < lowest_V && store.rated_V >= highest_V && store.limiter_V >= lowest_V) {
      flags.push(
        `The store is rated ${volts(store.rated_V)}, above the LED's ${volts(highest_V)}: filled by anything but this cell (${volts(ceiling_V)}) it would conduct straight through the boost into the LED.`,
      );
    }
  }

  if (ceiling_V > store.rated_V) {
    flags.push(
      `Above the rated voltage: full sun drives the store to ${volts(ceiling_V)} at ${STANDARD_TEMPERATURE_DEG_C} degC, and it is rated ${volts(store.rated_V)}. That ages it fast and can burst it; a limiter or a cell of less voltage prevents it.`,
    );
  }
  const lit_A =
    load.within.led_A[Math.min(Math.round(ceiling_V / load.step_V), load.within.led_A.length - 1)]!;
  const tabled_A = led.current_A[led.current_A.length - 1]!;
  if (led.current_A.length > 1 && lit_A > 1.001 * tabled_A) {
    flags.push(
      `Beyond the LED's table: a full store drives ${(1000 * lit_A).toFixed(0)} mA where the table ends at ${(1000 * tabled_A).toFixed(0)} mA; its light there is a guess, and the LED may not stand it.`,
    );
  }
  if (start_V > store.rated_V) {
    flags.push(
      `Above the rated voltage: the store starts at ${volts(start_V)}, and it is rated ${volts(store.rated_V)}.`,
    );
  }
  return flags;
}

/** Voltage of the store where the cell's current equals leakage, standby, balancing and limiter, in full sun. */
function fullSunCeiling_V(lamp: LampParams, air_degC: number): number {
  const { fixed_degC } = lamp.jar;
  return fullSunCeiling(lamp, Number.isNaN(fixed_degC) ? air_degC : fixed_degC).ceiling_V;
}

function outputAt_V({ led, load, driver }: LampParams, store_V: number): number {
  const rectifier_V = driver.law.kind === 'boost' ? driver.law.rectifier_V : 0;
  const row = load.within.output_V[Math.round(store_V / load.step_V)];
  return row === undefined || Number.isNaN(row) ? led.forward_V[0]! + rectifier_V : row;
}

function volts(value_V: number): string {
  return `${value_V.toFixed(2)} V`;
}
