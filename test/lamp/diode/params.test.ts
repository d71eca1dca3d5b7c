import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { diodeParams } from '../../../sim/lamp/diode/params.ts';
import { diodeSchema } from '../../../sim/lamp/diode/schema.ts';
import { diodeLeak_S, diodeSaturation_A } from '../../../sim/lamp/diode/step.ts';

const THERMAL_V = 0.025692579;

function read(input: z.input<typeof diodeSchema>) {
  const problems: ValueProblem[] = [];
  return {
    diode: diodeParams(diodeSchema.parse(input), (problem) => problems.push(problem)),
    problems,
  };
}

/** Forward voltage of a junction at a current, at 25 degC. */
const drop_V = (diode: { saturation_A: number; ideality: number; series_ohm: number }, current_A: number) =>
  diode.ideality * THERMAL_V * Math.log1p(current_A / diode.saturation_A) + diode.series_ohm * current_A;

describe('a blocking diode', () => {
  it('passes through its forward point', () => {
    const { diode } = read({ forward_drop: [{ current_mA: 10, drop_V: 0.2 }], series_ohm: 1 });
    expect(drop_V(diode!, 0.01)).toBeCloseTo(0.2, 7);
    expect(diode!.ideality).toBe(1.05);
  });

  it('takes its ideality from two points, and passes through both', () => {
    const forward_drop = [
      { current_mA: 1, drop_V: 0.18 },
      { current_mA: 100, drop_V: 0.33 },
    ];
    const { diode } = read({ forward_drop, series_ohm: 0.2 });
    // The second point fixes the ratio of exponentials, without their -1: a ten-thousandth of a volt.
    for (const point of forward_drop)
      expect(drop_V(diode!, point.current_mA / 1000)).toBeCloseTo(point.drop_V, 3);
  });

  it('may be an ideal switch, or raw', () => {
    expect(read({ switch_on_ohm: 0.1 }).diode).toMatchObject({ kind: 'switch', on_ohm: 0.1 });
    const raw = { saturation_A: 1e-6, ideality: 1.2, series_ohm: 0.3 };
    expect(read({ raw }).diode).toMatchObject({ kind: 'junction', ...raw });
  });

  it('keeps its saturation current where the barrier is 0, and grows its leakage with the temperature', () => {
    const { diode } = read({
      raw: { saturation_A: 1e-6, ideality: 1 },
      barrier_eV: 0,
      reverse_leakage_uA: 4,
    });
    expect(diodeSaturation_A(diode!, -10)).toBe(1e-6);
    expect(diodeLeak_S(diode!, 25)).toBeCloseTo(2e-6, 15);
    expect(diodeLeak_S(diode!, 45)).toBeCloseTo(8e-6, 15);
  });
});

describe('problems about a blocking diode', () => {
  it('ask for a point where there is none', () => {
    expect(read({}).problems).toMatchObject([{ code: 'SCENARIO_MISSING_KEY', path: ['forward_drop'] }]);
  });

  it('refuse two points that no junction passes through', () => {
    for (const [first, second] of [
      [0.2, 0.21],
      [0.2, 0.6],
      [0.3, 0.2],
    ] as const) {
      const { problems } = read({
        forward_drop: [
          { current_mA: 1, drop_V: first },
          { current_mA: 10, drop_V: second },
        ],
      });
      expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['forward_drop'] }]);
      expect(problems[0]!.got).toMatch(/ideality of -?\d/);
    }
  });

  it('refuse a forward drop that its series resistance takes whole', () => {
    const { diode, problems } = read({ forward_drop: [{ current_mA: 100, drop_V: 0.2 }], series_ohm: 3 });
    expect(diode).toBeUndefined();
    expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['series_ohm'] }]);
  });

  it('refuse two points at one current', () => {
    const { diode, problems } = read({
      forward_drop: [
        { current_mA: 10, drop_V: 0.2 },
        { current_mA: 10, drop_V: 0.25 },
      ],
    });
    expect(diode).toBeUndefined();
    expect(problems).toHaveLength(1);
  });
});
