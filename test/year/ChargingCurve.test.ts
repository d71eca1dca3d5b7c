import { describe, expect, it } from 'vitest';
import { ChargingCurve } from '../../sim/year/ChargingCurve.ts';
import { circuitHours } from '../../sim/year/circuitHours.ts';
import { type LampInput, makeLamp, RAW_CELL, RAW_DIODE } from '../lamp/makeLamp.ts';
import { libraryLamp } from './days.ts';
import { OutsideCircuit } from './OutsideCircuit.ts';

const without = { ...RAW_CELL, raw: { ...RAW_CELL.raw, shunt_ohm: 1e9 } };
const CURVES: Record<string, Partial<LampInput>> = {
  "the library's cell and diode": {},
  'a cell without a shunt': { cell: without, diode: RAW_DIODE },
  'a poor shunt': { cell: { ...RAW_CELL, raw: { ...RAW_CELL.raw, shunt_ohm: 60 } }, diode: RAW_DIODE },
  'a diode that leaks': { diode: { ...RAW_DIODE, reverse_leakage_uA: 50 } },
  'a silicon junction': { diode: { raw: { saturation_A: 1e-9, ideality: 1.8 }, barrier_eV: 1.11 } },
  'four cells in parallel': { cell: { ...RAW_CELL, parallel: 4 } },
  'an ideal-diode switch': { diode: { switch_on_ohm: 0.1 } },
};
const LIGHT_W_M2 = [1, 8, 60, 300, 1000];
const TEMPERATURE_DEGC = [-20, 5, 25, 60];
const TARGET_V = [0, 0.9, 1.4, 1.8, 2, 2.2, 2.4];

describe.each(Object.entries(CURVES))('a look at the curve of %s', (_, changes) => {
  const lamp = makeLamp(libraryLamp(changes));
  const curve = new ChargingCurve(lamp);
  const circuit = new OutsideCircuit(lamp);
  const points: {
    share: number;
    off: number;
    slope: number;
    second: number;
    third: number;
    far_V: number;
  }[] = [];
  for (const light of LIGHT_W_M2) {
    for (const degC of TEMPERATURE_DEGC) {
      curve.setHour(circuitHours(lamp, [light], [degC]), 0);
      circuit.conditions(light, degC);
      // The reach, less what a switch has no curve beyond.
      for (const target_V of TARGET_V.filter((v) => v < curve.highest_V - 0.02)) {
        curve.target_V = target_V;
        curve.in_A = 0.5 * curve.photocurrent_A;
        curve.junction_V = 0.2;
        curve.near_V = 0.01;
        curve.look();
        const at = (by_V: number) => circuit.pathCurrent(curve.at_V + by_V);
        const h = 2e-3;
        const [c, up, down, up2, down2] = [at(0), at(h), at(-h), at(2 * h), at(-2 * h)];
        const full_A = curve.photocurrent_A;
        points.push({
          far_V: Math.abs(curve.at_V - target_V),
          share: c / full_A,
          // 0.2 uA beside it: behind a silicon junction in dim light nothing at all passes.
          off: Math.max(0, Math.abs(curve.in_A - c) - 2e-7) / full_A,
          slope: Math.abs(curve.slope - (8 * (up - down) - up2 + down2) / (12 * h)) / full_A,
          second: Math.abs(curve.second - (16 * (up + down) - up2 - down2 - 30 * c) / (12 * h * h)) / full_A,
          third: Math.abs(curve.third - (up2 - 2 * up + 2 * down - down2) / (2 * h ** 3)) / full_A,
        });
      }
    }
  }
  const worst = (name: keyof (typeof points)[0]) => Math.max(...points.map((point) => point[name]));

  // A leak is taken at the junction voltage guessed: at 60 degC, where it has grown elevenfold, that is seen.
  const most = lamp.diode.leak_S > 1e-6 ? 5e-4 : 1e-6;

  it(`lies on it to ${most} of the light current, within the stated distance of the voltage asked for`, () => {
    expect(points.length).toBeGreaterThan(60);
    expect(worst('far_V')).toBeLessThan(0.01);
    expect(worst('off')).toBeLessThan(most);
  });

  it('has the derivatives of it, as differences tell them, of the light current per volt', () => {
    // In thermal voltages of the diode, 26 mV: slopes to 40, second derivatives to 1500, third to 6e4.
    expect(worst('slope')).toBeLessThan(0.01);
    expect(worst('second')).toBeLessThan(1.5);
    expect(worst('third')).toBeLessThan(600);
  });
});

describe('the blocked diode', () => {
  it.each(['dark', 'dim'])('lets back what the circuit written a second time does, %s', (what) => {
    const lamp = makeLamp(libraryLamp({ diode: { ...RAW_DIODE, reverse_leakage_uA: 50 } }));
    const curve = new ChargingCurve(lamp);
    const circuit = new OutsideCircuit(lamp);
    const light = what === 'dark' ? 0 : 0.3;
    curve.setHour(circuitHours(lamp, [light], [5]), 0);
    circuit.conditions(light, 5);
    for (const terminal_V of [1, 1.5, 2, 2.5].filter((v) => v >= curve.highest_V)) {
      curve.target_V = terminal_V;
      curve.block();
      const expected_A = circuit.pathCurrent(terminal_V);
      expect(Math.abs(curve.blocked_A / expected_A - 1)).toBeLessThan(0.03);
    }
  });
});
