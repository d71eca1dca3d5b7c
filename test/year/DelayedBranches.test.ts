import { describe, expect, it } from 'vitest';
import { DelayedBranches } from '../../sim/year/DelayedBranches.ts';
import { odexSolver } from './odexSolver.ts';

const FARADS = [18, 18] as const;
const OHMS = [20, 200] as const;

describe('delayed branches behind a voltage that is a parabola', () => {
  it.each([3600, 1234.5, 60, 0.5])(
    'take the charge, heat and store of the exact circuit over %f s',
    (step_s) => {
      const main_V = 1.8;
      // As far as a voltage comes in that time, and bends.
      const rise_V = (-0.21 * step_s) / 3600;
      const deviation_V = 0.013 * (step_s / 3600) ** 2;
      const branches = new DelayedBranches([
        { capacitance_F: FARADS[0], resistance_ohm: OHMS[0] },
        { capacitance_F: FARADS[1], resistance_ohm: OHMS[1] },
      ]);
      branches.restAt(1.74);
      const begin_C = branches.whole_C();
      Object.assign(branches, { main_V, step_s });
      branches.begin();
      Object.assign(branches, { rise_V, deviation_V });
      branches.take();
      branches.readEnergy();
      const { heat_J, stored_J } = branches;
      branches.accept();

      const voltage = (t: number) => {
        const s = t / step_s;
        return main_V + rise_V * s + 4 * deviation_V * s * (1 - s);
      };
      // Two voltages, and the heat.
      const rates = (t: number, [one, two]: number[]) => {
        const over = [voltage(t) - one!, voltage(t) - two!] as const;
        return [
          over[0] / (OHMS[0] * FARADS[0]),
          over[1] / (OHMS[1] * FARADS[1]),
          over[0] ** 2 / OHMS[0] + over[1] ** 2 / OHMS[1],
        ];
      };
      const { y } = odexSolver(3, 1e-12).solve(rates, 0, [1.74, 1.74, 0], step_s);
      // Over half a second of a branch that takes an hour the coefficients have lost seven digits of sixteen.
      expect(Math.abs(branches.one.voltage_V - y[0]!)).toBeLessThan(2e-9);
      expect(Math.abs(branches.two.voltage_V - y[1]!)).toBeLessThan(2e-9);
      expect(heat_J).toBeCloseTo(y[2]!, 9);
      const energy = (v: number) => 9 * v * v;
      expect(stored_J).toBeCloseTo(energy(y[0]!) + energy(y[1]!) - 2 * energy(1.74), 7);
      expect(branches.whole_C() - begin_C).toBeCloseTo(18 * (y[0]! + y[1]! - 2 * 1.74), 7);
    },
  );

  it('tell the charge drawn ahead of an even flow at half time', () => {
    const branches = new DelayedBranches([
      { capacitance_F: 18, resistance_ohm: 20 },
      { capacitance_F: 0, resistance_ohm: 1 },
    ]);
    branches.restAt(1.7);
    Object.assign(branches, { main_V: 1.75, step_s: 3600 });
    branches.begin();
    const taken = (until_s: number) =>
      18 *
      (odexSolver(1, 1e-12).solve((t, [v]) => [(1.75 + (0.1 * t) / 3600 - v!) / 360], 0, [1.7], until_s)
        .y[0]! -
        1.7);
    branches.rise_V = 0.1;
    branches.spread();
    expect(branches.half_C).toBeCloseTo(taken(1800) - 0.5 * taken(3600), 8);
  });
});
