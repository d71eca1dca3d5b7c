import fc from 'fast-check';
import { expect } from 'vitest';
import { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import { idealCapacitor, makeLamp, RAW_LED } from '../lamp/makeLamp.ts';
import { OutsideCircuit } from '../year/OutsideCircuit.ts';
import type { Property } from './Property.ts';

const share = fc.integer({ min: 0, max: 10_000 }).map((k) => k / 10_000);
/** A number between two, even on a logarithmic scale. */
const scale = (min: number, max: number) => share.map((x) => min * (max / min) ** x);

const cases = fc.record({
  photocurrent_A: scale(0.01, 3),
  junctions: fc.constantFrom(1, 4, 10),
  ideality: share.map((x) => 1 + x),
  resistance: share.map((x) => 0.1 * x),
  shunt: scale(5, 1000),
  diode: fc.oneof(
    fc.record({
      raw: fc.record({
        saturation_A: scale(1e-12, 1e-2),
        ideality: share.map((x) => 1 + x),
        series_ohm: share,
      }),
      barrier_eV: fc.constantFrom(0, 0.69, 1.11),
      reverse_leakage_uA: fc.constantFrom(0, 3, 300),
    }),
    fc.record({ switch_on_ohm: scale(1e-3, 0.3), reverse_leakage_uA: fc.constantFrom(0, 50) }),
  ),
  temperature_degC: share.map((x) => -20 + 80 * x),
  light_W_m2: fc.oneof(fc.constant(0), scale(0.01, 1200)),
  capacitor_V: share.map((x) => 3 * x),
});

export const CELL_DIODE_CIRCUIT: readonly Property[] = [
  {
    title:
      'any cell behind any diode carries the current of an independent bisection, to 1e-6 of full-sun current',
    runs: 3000,
    check: (numRuns) => {
      fc.assert(
        fc.property(cases, (given) => {
          const { photocurrent_A, junctions, ideality } = given;
          const open_V = 0.55 * junctions;
          const thermal_V = ideality * junctions * 0.025693;
          const lamp = makeLamp({
            cell: {
              raw: {
                photocurrent_A,
                saturation_A: photocurrent_A / Math.expm1(open_V / thermal_V),
                ideality,
                series_ohm: (given.resistance * open_V) / photocurrent_A,
                shunt_ohm: (given.shunt * open_V) / photocurrent_A,
              },
              cells_in_series: junctions,
            },
            diode: given.diode,
            capacitor: idealCapacitor(100),
            driver: { kind: 'power', power_mW: 1 },
            led: RAW_LED,
            schedule: { on: 'dusk', hours: 1 },
          });
          const path = new CellDiodeCircuit(lamp.cell, lamp.diode);
          const circuit = new OutsideCircuit(lamp);
          path.setConditions(given.light_W_m2, given.temperature_degC);
          circuit.conditions(given.light_W_m2, given.temperature_degC);
          const off_A = path.solve(given.capacitor_V) - circuit.pathCurrent(given.capacitor_V);
          expect(Math.abs(off_A)).toBeLessThan(1e-6 * photocurrent_A);
        }),
        { seed: 20260104, numRuns },
      );
    },
  },
];
