import { describe, expect, it } from 'vitest';
import { LitLoad } from '../../sim/lamp/loadTable.ts';
import { libraryLamp } from '../year/days.ts';
import { OutsideCircuit } from '../year/OutsideCircuit.ts';
import { type LampInput, makeLamp, RAW_LED } from './makeLamp.ts';

const cutoff = { cutoff_V: 0.9, restart_V: 1.1, efficiency: 0.9 };
const DRIVERS: Record<string, LampInput['driver']> = {
  power: { kind: 'power', power_mW: 25, ...cutoff },
  current: { kind: 'current', current_mA: 15, ...cutoff },
  conductance: { kind: 'conductance', conductance_mS: 8, ...cutoff },
  boost: { kind: 'boost', inductance_uH: 680, frequency_kHz: 9, duty: 0.2, current_limit_mA: 30, ...cutoff },
};

/** Worst shares of current and light by which the table misses the law, between the cut-off and 2.2 V. */
function misses(driver: LampInput['driver'], led: LampInput['led']) {
  const lamp = makeLamp(libraryLamp({ driver, led }));
  const load = new LitLoad(lamp.load);
  const circuit = new OutsideCircuit(lamp);
  circuit.duty = 1;
  circuit.glow = 1;
  let current = 0;
  let light = 0;
  for (let terminal_V = 0.9; terminal_V < 2.2; terminal_V += 0.00037) {
    load.terminal_V = terminal_V;
    load.read();
    circuit.terminal_V = terminal_V;
    circuit.load_A = circuit.drawn_A(terminal_V);
    current = Math.max(current, Math.abs(load.current_A / circuit.load_A - 1));
    light = Math.max(light, Math.abs(load.light_lm(terminal_V) / circuit.light_lm() - 1));
  }
  return { current, light };
}

describe.each(Object.entries(DRIVERS))('the table of a driver of constant %s', (_, driver) => {
  it('is within 1e-7 of its law with an LED of one voltage, light within 2e-5', () => {
    const { current, light } = misses(driver, RAW_LED);
    expect(current).toBeLessThan(1e-7);
    expect(light).toBeLessThan(2e-5);
  });

  it("is within 1e-4 across the corners of an LED's table", () => {
    const { current, light } = misses(driver, libraryLamp().led);
    expect(current).toBeLessThan(1e-4);
    expect(light).toBeLessThan(1e-4);
  });
});

it("the table of the library's driver is within 4e-4 of it across the corners of its efficiency and the LED's, its current within 1e-4", () => {
  const { driver, led } = libraryLamp();
  const { current, light } = misses(driver, led);
  expect(current).toBeLessThan(1e-4);
  // Measured 3.2e-4, within 3 mV of a corner.
  expect(light).toBeLessThan(4e-4);
});

describe('tables', () => {
  const tableOf = (changes: Partial<LampInput>) => makeLamp(libraryLamp(changes)).load;
  const { capacitor, led } = libraryLamp();

  it('are shared by lamps of equal driver, LED and range', () => {
    expect(tableOf({ schedule: { on: 'dusk', hours: 2 } })).toBe(tableOf({}));
  });

  it('are never shared by others', () => {
    const boost = { kind: 'boost', inductance_uH: 680, frequency_kHz: 9, duty: 0.2 } as const;
    const others: Partial<LampInput>[] = [
      ...Object.entries(DRIVERS)
        .filter(([name]) => name !== 'boost')
        .map(([, driver]) => ({ driver })),
      { driver: { ...boost, ...cutoff, current_limit_mA: 31 } },
      { driver: { ...boost, ...cutoff, duty: 0.21, current_limit_mA: 30 } },
      { driver: { ...boost, ...cutoff, rectifier_drop_V: 0.2, current_limit_mA: 30 } },
      { driver: { ...boost, ...cutoff, efficiency: 0.8, current_limit_mA: 30 } },
      { led: RAW_LED },
      { led: { ...led, count: 2 } },
      { capacitor: { ...capacitor, rated_V: 3 } },
    ];
    const tables = [tableOf({}), ...others.map(tableOf)];
    expect(new Set(tables).size).toBe(tables.length);
  });
});
