import { describe, expect, it } from 'vitest';
import { VoltagePath } from '../../sim/year/VoltagePath.ts';
import { odexSolver } from './odexSolver.ts';

function follow(fields: Partial<VoltagePath>): VoltagePath {
  const path = Object.assign(new VoltagePath(), fields);
  expect(path.follow()).toBe(true);
  return path;
}

describe('the path of a voltage', () => {
  it('is the exact relaxation of a straight rate, slow and stiff', () => {
    for (const slope of [1e-7, -1e-6, -1e-4, -1e-3, -0.02]) {
      const path = follow({ rate: 2e-5, slope, from_V: -0.04, duration_s: 3600 });
      const start = 2e-5 - 0.04 * slope;
      const rise = (start * Math.expm1(slope * 3600)) / slope;
      expect(path.rise_V).toBeCloseTo(rise, 9);
      const half = (start * Math.expm1(slope * 1800)) / slope;
      expect(path.deviation_V).toBeCloseTo(half - 0.5 * rise, 9);
      expect(path.startRate).toBeCloseTo(start, 15);
      expect(path.endRate).toBeCloseTo(start * Math.exp(slope * 3600), 11);
    }
  });

  it('is the exact logarithm of a rate that falls as an exponential: the creep through a diode', () => {
    const [rate, g, h] = [1e-4, 1 / 0.026, 3600];
    const path = follow({ rate, slope: -g * rate, second: g * g * rate, from_V: 0, duration_s: h });
    expect(path.rise_V).toBeCloseTo(Math.log1p(g * rate * h) / g, 9);
    expect(path.deviation_V).toBeCloseTo(Math.log1p(0.5 * g * rate * h) / g - 0.5 * path.rise_V, 9);
    expect(path.endRate).toBeCloseTo(rate / (1 + g * rate * h), 12);
  });

  it('is what the library makes of its rate, far and short, wherever it begins', () => {
    const seen = { far: 0, short: 0 };
    for (const slope of [-3e-5, -3e-4, -4e-3, 2e-5]) {
      for (const perFold of [-30, -4, 3, 20, 40]) {
        for (const rate of [-8e-5, 2e-6, 6e-5]) {
          for (const from_V of [-0.08, 0, 0.03]) {
            const second = perFold * slope;
            // Not the exponential's own: what of it a path leaves out tells which way it took.
            const third = 0.9 * perFold * second;
            const given = { rate, slope, second, third, from_V, duration_s: 3600 };
            const path = Object.assign(new VoltagePath(), given);
            if (!path.follow() || Math.abs(path.rise_V) > 0.5) continue;
            const isShort = path.missed === 0;
            seen[isShort ? 'short' : 'far']++;
            const law = isShort
              ? (x: number) => rate + x * (slope + x * (second / 2 + (x * third) / 6))
              : (x: number) => rate + (slope / perFold) * Math.expm1(perFold * x);
            const { y } = odexSolver(1, 1e-11).solve((_, [x]) => [law(x!)], 0, [from_V], 3600);
            expect(Math.abs(path.rise_V - (y[0]! - from_V))).toBeLessThan(1e-5);
          }
        }
      }
    }
    expect(Math.min(seen.far, seen.short)).toBeGreaterThan(20);
  });

  it('says so where its form runs away', () => {
    const path = Object.assign(new VoltagePath(), { rate: 1e-3, slope: 0.05, second: 2, duration_s: 3600 });
    expect(path.follow()).toBe(false);
  });
});
