import { lambertW0Log } from 'lambert-w-function';
import { describe, expect, it } from 'vitest';
import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import type { LampParams } from '../../sim/lamp/params.ts';
import { OutsideCircuit } from '../year/OutsideCircuit.ts';
import { idealCapacitor, type LampInput, makeLamp, problemsOf, RAW_LED } from './makeLamp.ts';

const FULL_SUN_A = [0.1, 0.5, 1];
const SHUNT_V = [10, 30, 200, 1000];
const STORE_V = [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5];
const TEMPERATURE_DEGC = [-10, 5, 25, 50];
const LIGHT_W_M2 = [0, 3, 10, 30, 60, 100, 300, 1000];

const DIODES = {
  'a Schottky diode': { forward_drop: [{ current_mA: 10, drop_V: 0.2 }] },
  'a leaky Schottky diode': {
    raw: { saturation_A: 2e-5, ideality: 1.1, series_ohm: 0.1 },
    reverse_leakage_uA: 50,
  },
  'a silicon junction': { raw: { saturation_A: 1e-9, ideality: 1.8 }, barrier_eV: 1.11 },
  'an ideal-diode switch': { switch_on_ohm: 0.08 },
} as const satisfies Record<string, LampInput['diode']>;

/** A four-junction cell of 2.45 V whose shunt is given as volts at the full-sun current. */
function lampWith(fullSun_A: number, shunt_V: number, diode: LampInput['diode']): LampParams {
  const ideality = 1.5;
  const thermal_V = ideality * 4 * 0.02569;
  return makeLamp({
    cell: {
      raw: {
        photocurrent_A: fullSun_A,
        saturation_A: (fullSun_A * (1 - 2.45 / shunt_V)) / Math.expm1(2.45 / thermal_V),
        ideality,
        series_ohm: 0.08 / fullSun_A,
        shunt_ohm: shunt_V / fullSun_A,
      },
      cells_in_series: 4,
    },
    diode,
    capacitor: idealCapacitor(100),
    driver: { kind: 'power', power_mW: 10 },
    led: RAW_LED,
    jar: {},
    schedule: { on: 'dusk', hours: 6 },
  });
}

describe('current into the capacitor', () => {
  for (const [name, diode] of Object.entries(DIODES)) {
    it(`equals the circuit written a second time behind ${name}, in dim light and the dark too`, () => {
      let points = 0;
      let carrying = 0;
      let worst = 0;
      let worstRelative = 0;
      for (const fullSun_A of FULL_SUN_A) {
        for (const shunt_V of SHUNT_V) {
          const lamp = lampWith(fullSun_A, shunt_V, diode);
          const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
          const circuit = new OutsideCircuit(lamp);
          for (const degC of TEMPERATURE_DEGC) {
            for (const light_W_m2 of LIGHT_W_M2) {
              path.setConditions(light_W_m2, degC);
              circuit.conditions(light_W_m2, degC);
              for (const capacitor_V of STORE_V) {
                const got_A = path.solve(capacitor_V);
                const expected_A = circuit.pathCurrent(capacitor_V);
                const off_A = Math.abs(got_A - expected_A);
                points++;
                worst = Math.max(worst, off_A / fullSun_A);
                if (Math.abs(expected_A) > 1e-3 * path.photocurrent_A && light_W_m2 > 0) {
                  carrying++;
                  worstRelative = Math.max(worstRelative, off_A / Math.abs(expected_A));
                }
              }
            }
          }
        }
      }
      expect(worst).toBeLessThan(1e-6);
      expect(worstRelative).toBeLessThan(1e-6);
      // A silicon junction takes 0.6 V of the 2.45 V: fewer points carry current behind it.
      expect(carrying).toBeGreaterThanOrEqual(name === 'a silicon junction' ? points / 3 : points / 2);
    });
  }

  it('equals the explicit solution by the Lambert W function where the diode is a resistance', () => {
    let worst = 0;
    for (const fullSun_A of FULL_SUN_A) {
      for (const shunt_V of SHUNT_V) {
        const lamp = lampWith(fullSun_A, shunt_V, { switch_on_ohm: 0.08 });
        const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
        const r = lamp.cell.series_ohm + 0.08;
        const rsh = lamp.cell.shunt_ohm;
        for (const degC of TEMPERATURE_DEGC) {
          for (const light_W_m2 of LIGHT_W_M2) {
            path.setConditions(light_W_m2, degC);
            const { photocurrent_A: iph, saturation_A: i0, thermal_V: a } = path;
            for (const capacitor_V of STORE_V) {
              // Jain and Kapoor 2004: I = [Rsh (Iph + I0) - V] / (R + Rsh) - (a / R) W(x).
              const front = (rsh * (iph + i0) - capacitor_V) / (r + rsh);
              const logX =
                Math.log((r * i0 * rsh) / (a * (r + rsh))) +
                (rsh * (r * (iph + i0) + capacitor_V)) / (a * (r + rsh));
              const explicit_A = front - (a / r) * lambertW0Log(logX);
              worst = Math.max(
                worst,
                Math.abs(path.solve(capacitor_V) - Math.max(0, explicit_A)) / fullSun_A,
              );
            }
          }
        }
      }
    }
    // Cancellation in the explicit form leaves some 1e-12.
    expect(worst).toBeLessThan(1e-9);
  });

  it('is backwards in the dark by no more than saturation, leakage and shunt let through', () => {
    const lamp = lampWith(0.5, 200, { raw: { saturation_A: 5e-6, ideality: 1.05 }, reverse_leakage_uA: 20 });
    const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    path.setConditions(0, 25);
    const back_A = path.solve(2);
    expect(back_A).toBeLessThan(0);
    expect(back_A).toBeGreaterThan(-(5e-6 + 20e-6) - 1e-12);
    expect(path.solve(0)).toBeCloseTo(0, 12);
  });

  it('states the slope of the current against the capacitor voltage', () => {
    const lamp = lampWith(0.5, 200, DIODES['a Schottky diode']);
    const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    for (const [light_W_m2, capacitor_V] of [
      [1000, 1],
      [1000, 2.1],
      [30, 1.2],
      [30, 1.7],
      [0, 1.5],
    ] as const) {
      path.setConditions(light_W_m2, 10);
      const step_V = 1e-5;
      const difference_S =
        (path.solve(capacitor_V + step_V) - path.solve(capacitor_V - step_V)) / (2 * step_V);
      path.solve(capacitor_V);
      // The difference quotient is good to some 1e-6 of the slope.
      expect(Math.abs(path.slope_S - difference_S)).toBeLessThan(1e-4 * Math.abs(difference_S) + 1e-10);
    }
  });
});

describe('reachable', () => {
  it('is the capacitor voltage at which the path carries the drain', () => {
    for (const diode of Object.values(DIODES)) {
      const lamp = lampWith(0.5, 200, diode);
      const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
      for (const light_W_m2 of [10, 60, 1000]) {
        path.setConditions(light_W_m2, 10);
        for (const drain_A of [1e-5, 1e-4, 1e-3, 0.3 * path.photocurrent_A]) {
          const reachable_V = path.reachable_V(drain_A);
          // Small drains take a straight line from open circuit, and the leakage that bridges the diode is left out.
          expect(path.solve(reachable_V + 1e-3)).toBeLessThan(drain_A);
          expect(path.solve(reachable_V - 1e-3)).toBeGreaterThan(drain_A);
        }
      }
    }
  });

  it('is zero where the cell cannot give the drain at any voltage', () => {
    const lamp = lampWith(0.5, 200, DIODES['a Schottky diode']);
    const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    path.setConditions(1, 10);
    expect(path.reachable_V(0.001)).toBe(0);
    path.setConditions(0, 10);
    expect(path.reachable_V(1e-6)).toBe(0);
  });
});

describe('best point', () => {
  it('is the most power of a fine scan of the cell, in bright and dim light', () => {
    for (const shunt_V of SHUNT_V) {
      const lamp = lampWith(0.05, shunt_V, DIODES['a Schottky diode']);
      const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
      // From dim to bright and back within an hour: the search starts from the light before.
      for (const light_W_m2 of [1, 10, 60, 300, 1000, 5, 1000, 1, 993, 2, 30]) {
        path.setConditions(light_W_m2, 5);
        const best_W = path.bestPower_W();
        let scanned_W = 0;
        for (let k = 0; k <= 20_000; k++) {
          const u = (path.openCircuit_V * k) / 20_000;
          const i_A =
            path.photocurrent_A -
            path.saturation_A * Math.expm1(u / path.thermal_V) -
            u / lamp.cell.shunt_ohm;
          scanned_W = Math.max(scanned_W, i_A * (u - i_A * lamp.cell.series_ohm));
        }
        // The search stops at 0.1 mV, a share of a dim cell of a volt; it enters only the unharvested energy.
        expect(Math.abs(best_W / scanned_W - 1)).toBeLessThan(2e-4);
      }
    }
  });
});

describe('a cell whose shunt takes its light', () => {
  it('is refused where that lies below the open-circuit voltage of a cold day, and solved where it just does not', () => {
    const cell = (shunt_ohm: number) => ({
      raw: { photocurrent_A: 0.1, saturation_A: 1e-9, ideality: 1.5, series_ohm: 0, shunt_ohm },
      cells_in_series: 4,
    });
    const around = {
      diode: DIODES['a Schottky diode'],
      capacitor: idealCapacitor(100),
      driver: { kind: 'power', power_mW: 10 },
      led: RAW_LED,
      schedule: { on: 'dusk', hours: 6 },
    } as const;
    expect(problemsOf({ cell: cell(15), ...around })).toMatchObject([
      { code: 'SCENARIO_CONFLICT', path: ['cell', 'raw', 'shunt_ohm'] },
    ]);
    const lamp = makeLamp({ cell: cell(40), ...around });
    const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    for (const degC of [-40, -20, 25, 60]) {
      path.setConditions(1000, degC);
      expect(path.solve(1)).toBeGreaterThan(0);
      expect(path.openCircuit_V).toBeGreaterThan(1);
    }
  });
});
