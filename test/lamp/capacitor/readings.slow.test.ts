import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { randomStream } from '../../../sim/common/random.ts';
import { capacitorFromReadings } from '../../../sim/lamp/capacitor/readings.ts';
import { capacitorSchema } from '../../../sim/lamp/capacitor/schema.ts';

type CapacitorInput = z.input<typeof capacitorSchema>;

const PLAIN = { rated_V: 2.7, esr_mohm: 0, capacitance_rise: 0, delayed_share: 0 } as const;

function fitOf(input: CapacitorInput) {
  const section = capacitorSchema.parse(input);
  const problems: ValueProblem[] = [];
  const fit = capacitorFromReadings(section, section.readings!, (problem) => problems.push(problem));
  return { section, fit, problems };
}

const voltage = (value_V: number) => Math.round(value_V * 1000) / 1000;

/** Voltage of a main capacitor with two delayed branches and a leakage resistance, solved exactly by its eigenvectors. */
function delayedRest(farad: number, share: number, hours: number, leak_ohm: number, from_V: number) {
  const each = (farad * share) / 2;
  const taus = [hours * 360, hours * 3600] as const;
  const [r1, r2] = [taus[0] / each, taus[1] / each];
  const system = new Matrix([
    [-(1 / r1 + 1 / r2 + 1 / leak_ohm) / farad, 1 / (r1 * farad), 1 / (r2 * farad)],
    [1 / taus[0], -1 / taus[0], 0],
    [1 / taus[1], 0, -1 / taus[1]],
  ]);
  const modes = new EigenvalueDecomposition(system);
  const held_s = 1800;
  const start = Matrix.columnVector([
    from_V,
    from_V * -Math.expm1(-held_s / taus[0]),
    from_V * -Math.expm1(-held_s / taus[1]),
  ]);
  const weights = solve(modes.eigenvectorMatrix, start);
  return (h: number) =>
    modes.realEigenvalues.reduce(
      (sum, rate, j) =>
        sum + modes.eigenvectorMatrix.get(0, j) * weights.get(j, 0) * Math.exp(rate * h * 3600),
      0,
    );
}

it('the 90 percent intervals hold capacitance, share and leakage in 82 to 98 of 100 repeats', {
  timeout: 60_000,
}, () => {
  const held: Record<string, number> = {};
  for (let seed = 1; seed <= 100; seed++) {
    const random = randomStream(seed, 'readings of a capacitor');
    // What the scenario assumes is off as far as the fit allows for, the meter and the resistor as far as stated.
    const hours = 3 * Math.exp(Math.LN2 * random.normal());
    const meter = 1 + 0.0025 * random.normal();
    const ohm = 10 * (1 + 0.005 * random.normal());
    const shown = (volts: number) => voltage(volts * meter);
    const after_V = delayedRest(400, 0.13, hours, 4000, 2.5);
    const main_V = 2.16;
    const whole_S = 1 / ohm;
    // The discharge of the same three-branch circuit through the resistor, held for half an hour before.
    const fall_V = delayedRest(400, 0.13, hours, 1 / (whole_S + 1 / 4000), main_V);
    const half_h = fallTime_h(fall_V, 1.08);
    const { fit, problems } = fitOf({
      ...PLAIN,
      delayed_share: 0.1,
      leakage_law: 'resistance',
      leakage_uA: 500,
      readings: {
        discharge: [
          {
            resistor_ohm: 10,
            points: [
              { seconds: 0, voltage_V: shown(main_V) },
              { seconds: Math.round(half_h * 3600 + Math.SQRT2 * random.normal()), voltage_V: shown(1.08) },
            ],
          },
        ],
        rest: {
          from_V: shown(2.5),
          after: [1, 24, 72].map((at) => ({ hours: at, voltage_V: shown(after_V(at)) })),
        },
      },
    });
    expect(problems, `seed ${seed}`).toEqual([]);
    const truth = { capacitance_F: 400, delayed_share: 0.13, leakage_uA: (2.7 / 4000) * 1e6 };
    for (const [key, value] of Object.entries(truth)) {
      const { low, high } = fit!.estimates.find((estimate) => estimate.key === key)!;
      held[key] = (held[key] ?? 0) + (value >= low && value <= high ? 1 : 0);
    }
  }
  // 90 expected, spread 3.
  for (const key of ['capacitance_F', 'delayed_share', 'leakage_uA']) {
    expect(held[key], key).toBeGreaterThanOrEqual(82);
    expect(held[key], key).toBeLessThanOrEqual(98);
  }
});

function fallTime_h(volts: (hours: number) => number, to_V: number): number {
  let [low, high] = [0, 10];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (volts(middle) > to_V) low = middle;
    else high = middle;
  }
  return low;
}
