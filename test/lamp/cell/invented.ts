import type { z } from 'zod';
import type { RandomStream } from '../../../sim/common/random.ts';
import type { SingleDiode } from '../../../sim/lamp/cell/SingleDiode.ts';
import type { CellSection } from '../../../sim/lamp/cell/schema.ts';
import { cellSchema } from '../../../sim/lamp/cell/schema.ts';

/** Boltzmann constant over elementary charge, V/K, written a second time. */
const K_OVER_Q = 1.380649e-23 / 1.602176634e-19;
const JUNCTIONS = 4;
const TEMPCO_V_K = -2.2e-3 * JUNCTIONS;
const ALPHA = 5e-4;

/** A root of a falling function by halving. */
function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 80; i++) {
    const middle = (a + b) / 2;
    if (f(middle) > 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** Current of a cell at its junction voltage, at a temperature, in a light: the model's equations, written apart. */
function junctionCurrent(cell: SingleDiode, light_A: number, cell_degC: number): (u: number) => number {
  const a25 = cell.ideality * JUNCTIONS * K_OVER_Q * 298.15;
  const open25_V = root(
    (u) => cell.photocurrent_A - cell.saturation_A * Math.expm1(u / a25) - u / cell.shunt_ohm,
    0,
    5,
  );
  const a = cell.ideality * JUNCTIONS * K_OVER_Q * (cell_degC + 273.15);
  const open_V = open25_V + TEMPCO_V_K * (cell_degC - 25);
  const full_A = cell.photocurrent_A * (1 + ALPHA * (cell_degC - 25));
  const saturation_A = (full_A - open_V / cell.shunt_ohm) / Math.expm1(open_V / a);
  return (u) => light_A - saturation_A * Math.expm1(u / a) - u / cell.shunt_ohm;
}

export interface Light {
  /** W/m2 */
  light: number;
  cell_degC: number;
  burden_ohm: number;
  current_step_mA: number;
  /** Loads across the cell, ohm. */
  loads: readonly number[];
}

/** What a maker with an ordinary multimeter would write down of a cell, errors and last digits included. */
export function cellReadings(cell: SingleDiode, lights: readonly Light[], random: RandomStream): CellSection {
  const half = (percent: number) => (percent / 200) * random.normal();
  const [fullSun, voltmeter, ammeter] = [half(10), half(0.5), half(1)];
  const drift = () => 1 + half(1);
  const rounded = (value: number, step: number) => Math.round(value / step) * step;
  const input = lights.map(({ light, cell_degC, burden_ohm, current_step_mA, loads }) => {
    const true_degC = cell_degC - 1.5 * random.normal();
    const light_A = () =>
      cell.photocurrent_A * (light / 1000) * (1 + fullSun) * (1 + ALPHA * (true_degC - 25)) * drift();
    const through = (ohm: number) => {
      const current = junctionCurrent(cell, light_A(), true_degC);
      return root((u) => current(u) - u / (cell.series_ohm + ohm), 0, 5) / (cell.series_ohm + ohm);
    };
    const open_V = root(junctionCurrent(cell, light_A(), true_degC), 0, 5);
    return {
      short_circuit_mA: rounded(through(burden_ohm) * 1000 * (1 + ammeter), current_step_mA),
      open_circuit_V: rounded(open_V * (1 + voltmeter), 1e-3),
      cell_degC,
      burden_ohm,
      current_step_mA,
      loaded: loads.map((ohm) => {
        const true_A = through(ohm);
        return {
          voltage_V: rounded(true_A * ohm * (1 + voltmeter), 1e-3),
          current_mA: rounded(true_A * 1000 * (1 + ammeter), current_step_mA),
        };
      }),
    };
  });
  return cellSchema.parse({ cells_in_series: JUNCTIONS, readings: { lights: input } } satisfies z.input<
    typeof cellSchema
  >);
}
