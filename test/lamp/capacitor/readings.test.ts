import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { capacitorFromReadings } from '../../../sim/lamp/capacitor/readings.ts';
import { capacitorSchema } from '../../../sim/lamp/capacitor/schema.ts';
import { settledPart } from '../makeLamp.ts';

type CapacitorInput = z.input<typeof capacitorSchema>;

const PLAIN = { rated_V: 2.7, esr_mohm: 0, capacitance_rise: 0, delayed_share: 0 } as const;

function fitOf(input: CapacitorInput) {
  const section = capacitorSchema.parse(input);
  const problems: ValueProblem[] = [];
  const fit = capacitorFromReadings(section, section.readings!, (problem) => problems.push(problem));
  return { section, fit, problems };
}

function estimateOf(input: CapacitorInput, key: string) {
  const { fit, problems } = fitOf(input);
  expect(problems).toEqual([]);
  return fit!.estimates.find((estimate) => estimate.key === key)!;
}

const voltage = (value_V: number) => Math.round(value_V * 1000) / 1000;

it('a discharge through a resistor, t = R C ln(V1 / V2), gives the capacitance within 2 percent', () => {
  for (const farad of [10, 350]) {
    const { value, low, high } = estimateOf(
      {
        ...PLAIN,
        leakage_uA: 0,
        readings: {
          discharge: [
            {
              resistor_ohm: 10,
              points: [
                { seconds: 0, voltage_V: 2.16 },
                { seconds: Math.round(10 * farad * Math.log(2)), voltage_V: 1.08 },
              ],
            },
          ],
        },
      },
      'capacitance_F',
    );
    expect(value / farad).toBeGreaterThan(0.98);
    expect(value / farad).toBeLessThan(1.02);
    expect(low).toBeLessThan(farad);
    expect(high).toBeGreaterThan(farad);
    // The resistor's 1 percent and two seconds in 69 are all there is.
    expect(high / low).toBeLessThan(1.08);
  }
});

it('self-discharge of a leakage that falls by e each 0.3 V, in closed form, gives the leakage within 2 percent', () => {
  const [farad, leakage_A, e_fold_V, from_V] = [350, 800e-6, 0.3, 2.6];
  // With u = V / fold: du/dt = -k (e^u - 1), so that ln(1 - e^-u) falls by k t.
  const k = leakage_A / (farad * e_fold_V * Math.expm1(2.7 / e_fold_V));
  const after_V = (hours: number) =>
    -e_fold_V * Math.log(-Math.expm1(Math.log(-Math.expm1(-from_V / e_fold_V)) - k * hours * 3600));
  const { value } = estimateOf(
    {
      ...PLAIN,
      capacitance_F: farad,
      readings: {
        rest: { from_V, after: [1, 24, 72].map((hours) => ({ hours, voltage_V: voltage(after_V(hours)) })) },
      },
    },
    'leakage_uA',
  );
  expect(value).toBeGreaterThan(0.98 * 800);
  expect(value).toBeLessThan(1.02 * 800);
});

it('self-discharge through a resistance, V = V0 exp(-t / R C), gives the leakage within 2 percent', () => {
  const [farad, ohm] = [100, 20_000];
  const { value } = estimateOf(
    {
      ...PLAIN,
      capacitance_F: farad,
      leakage_law: 'resistance',
      readings: {
        rest: {
          from_V: 2.5,
          after: [1, 24, 72].map((hours) => ({
            hours,
            voltage_V: voltage(2.5 * Math.exp((-hours * 3600) / (ohm * farad))),
          })),
        },
      },
    },
    'leakage_uA',
  );
  expect(value / ((2.7 / ohm) * 1e6)).toBeGreaterThan(0.98);
  expect(value / ((2.7 / ohm) * 1e6)).toBeLessThan(1.02);
});

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

it('a rest with delayed branches, solved exactly, gives delayed share and leakage within 2 percent', () => {
  const after_V = delayedRest(400, 0.13, 3, 4000, 2.5);
  const { fit, problems } = fitOf({
    ...PLAIN,
    delayed_share: 0.1,
    leakage_law: 'resistance',
    capacitance_F: 400,
    readings: {
      rest: {
        from_V: 2.5,
        after: [0.5, 1, 3, 8, 24, 72].map((hours) => ({ hours, voltage_V: voltage(after_V(hours)) })),
      },
    },
  });
  expect(problems).toEqual([]);
  const [leakage, share] = fit!.estimates;
  expect(share!.key).toBe('delayed_share');
  expect(share!.value / 0.13).toBeGreaterThan(0.98);
  expect(share!.value / 0.13).toBeLessThan(1.02);
  expect(leakage!.value / ((2.7 / 4000) * 1e6)).toBeGreaterThan(0.98);
  expect(leakage!.value / ((2.7 / 4000) * 1e6)).toBeLessThan(1.02);
});

it('a leakage too small to see in three days gets an upper bound', () => {
  const { fit } = fitOf({
    ...PLAIN,
    capacitance_F: 400,
    readings: {
      rest: {
        from_V: 2,
        after: [
          { hours: 1, voltage_V: 2 },
          { hours: 3, voltage_V: 2 },
        ],
      },
    },
  });
  const leakage = fit!.estimates[0]!;
  expect(leakage.low).toBe(0);
  expect(leakage.high).toBeGreaterThan(0);
  expect(fit!.notes.join(' ')).toMatch(/upper bound/);
});

it('a settled capacitor takes what was read, and keeps the datasheet where nothing was', () => {
  const { result: capacitor, problems } = settledPart(
    'capacitor',
    capacitorSchema.parse({
      ...PLAIN,
      capacitance_F: 500,
      leakage_uA: 700,
      readings: {
        discharge: [
          {
            resistor_ohm: 10,
            points: [
              { seconds: 0, voltage_V: 2 },
              { seconds: 2773, voltage_V: 1 },
            ],
          },
        ],
      },
    }),
  );
  expect(problems).toEqual([]);
  // 2773 s through 10 ohm over ln 2; the leakage takes a little of it.
  expect(capacitor!.capacitance_F).toBeGreaterThan(398);
  expect(capacitor!.capacitance_F).toBeLessThan(402);
  expect(capacitor!.leakage_A).toBeCloseTo(700e-6, 12);
});

it.each([
  ['a voltage that rises', [2, 1.5, 1.6], /1\.6 V after 1\.5 V/],
  ['a discharge that quickens', [2, 1.9, 1], /times as fast as before/],
] as const)('%s is refused', (_, volts, got) => {
  const { problems } = fitOf({
    ...PLAIN,
    leakage_uA: 100,
    readings: {
      discharge: [
        { resistor_ohm: 10, points: volts.map((voltage_V, i) => ({ seconds: 1000 * i, voltage_V })) },
      ],
    },
  });
  expect(problems).toMatchObject([
    { code: 'SCENARIO_CONFLICT', path: ['readings', 'discharge', 0, 'points', 2, 'voltage_V'] },
  ]);
  expect(problems[0]!.got).toMatch(got);
});

it('a rest that falls faster the longer it lasts is refused', () => {
  const { problems } = fitOf({
    ...PLAIN,
    capacitance_F: 100,
    readings: {
      rest: {
        from_V: 2.5,
        after: [
          { hours: 24, voltage_V: 2.45 },
          { hours: 48, voltage_V: 2.1 },
        ],
      },
    },
  });
  expect(problems).toMatchObject([
    { code: 'SCENARIO_CONFLICT', path: ['readings', 'rest', 'after', 1, 'voltage_V'] },
  ]);
});

it('a resistor in kilohms under ohm is told', () => {
  const { problems } = fitOf({
    ...PLAIN,
    capacitance_F: 10,
    leakage_uA: 10,
    readings: {
      discharge: [
        {
          resistor_ohm: 1,
          points: [
            { seconds: 0, voltage_V: 2 },
            { seconds: 6931, voltage_V: 1 },
          ],
        },
      ],
    },
  });
  expect(problems).toMatchObject([{ code: 'SCENARIO_WRONG_UNIT' }]);
});

it('neither a discharge nor a rest nor a datasheet: it says what is open and what to measure', () => {
  const { problems } = fitOf({ ...PLAIN, readings: {} });
  expect(problems.map(({ code }) => code)).toEqual(['FIT_UNDETERMINED', 'FIT_UNDETERMINED']);
  expect(problems[0]!.fix).toMatch(/time a discharge/);
  expect(problems[1]!.fix).toMatch(/three days at rest/);
});
