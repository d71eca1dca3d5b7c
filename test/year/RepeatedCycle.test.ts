import { expect, test } from 'vitest';
import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import { simulateYear } from '../../sim/year/simulateYear.ts';
import { idealCapacitor, idealLamp } from '../lamp/makeLamp.ts';
import { dummyLight } from './dummyLight.ts';

const DRAW_A = 0.04;
const LIGHT_W_M2 = 40;
const HOURS = 24;

/** A night under a street lamp: the cell gives less than the driver draws, which stops and restarts. */
function nightOf(capacitance_F: number) {
  const lamp = idealLamp(
    { kind: 'current', current_mA: DRAW_A * 1000, cutoff_V: 0.9, restart_V: 1 },
    idealCapacitor(capacitance_F),
  );
  const light = dummyLight('2026-01-10T12:00:00Z', new Float64Array(HOURS).fill(LIGHT_W_M2), 25, {
    dusk_h: 2,
    dawn_h: 22,
  });
  const year = simulateYear(lamp, light, {
    timeZone: 'UTC',
    promise: { from: 'dusk', until: 'dawn', least_lumen: 1e-9, tolerance_h: 0.25 },
    start: { capacitor_V: 1 },
  });
  return { lamp, year };
}

/** Share of a cycle in which the driver draws, by the times from cut-off to restart and back: C dV over the current. */
function drawingShare(lamp: ReturnType<typeof idealLamp>): number {
  const circuit = new CellDiodeCircuit(lamp.cell, lamp.diode);
  circuit.setConditions(LIGHT_W_M2, 25);
  let [up, down] = [0, 0];
  for (let k = 0; k < 1000; k++) {
    const given_A = circuit.solve(0.9 + (k + 0.5) * 1e-4);
    up += 1 / given_A;
    down += 1 / (DRAW_A - given_A);
  }
  return down / (up + down);
}

// 0.3 F: a cycle of some 3 s, a thousand an hour, of which a dozen are followed. 30 F: 12 an hour, none repeated.
for (const capacitance_F of [0.3, 30]) {
  test(`a driver of ${capacitance_F} F that stops and restarts all night is lit for the share of its cycle`, () => {
    const { lamp, year } = nightOf(capacitance_F);
    const share = drawingShare(lamp);
    expect(share).toBeGreaterThan(0.3);
    // Of 30 F the first and the last cycle are not whole: an hour's draw is as good as the capacitor's own 3 C in 2900 C.
    const [lit_s, promised_s] = [year.nights.lit_s[0]!, year.nights.promised_s[0]!];
    expect(promised_s).toBeCloseTo(20 * 3600, 3);
    expect(Math.abs(lit_s / promised_s - share)).toBeLessThan(capacitance_F < 1 ? 2e-4 : 0.01);
    const { chargeIn_C, chargeOut_C } = year.columns;
    const hour = 10;
    expect(Math.abs(chargeOut_C[hour]! - chargeIn_C[hour]!)).toBeLessThan(0.11 * capacitance_F);
  });
}
