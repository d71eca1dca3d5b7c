import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { driverParams } from '../../../sim/lamp/driver/params.ts';
import { driverSchema } from '../../../sim/lamp/driver/schema.ts';

function read(input: z.input<typeof driverSchema>) {
  const problems: ValueProblem[] = [];
  return {
    driver: driverParams(driverSchema.parse(input), (problem) => problems.push(problem)),
    problems,
  };
}

describe('a driver', () => {
  it('draws by its kind', () => {
    const drawn = (input: z.input<typeof driverSchema>) => read(input).driver!.law.current_A(1.5, 3);
    expect(drawn({ kind: 'power', power_mW: 15 })).toBeCloseTo(0.01, 12);
    expect(drawn({ kind: 'current', current_mA: 7 })).toBeCloseTo(0.007, 12);
    expect(drawn({ kind: 'conductance', conductance_mS: 4 })).toBeCloseTo(0.006, 12);
    const table = [
      { capacitor_V: 1, current_mA: 4 },
      { capacitor_V: 2, current_mA: 8 },
    ];
    expect(drawn({ kind: 'table', table })).toBeCloseTo(0.006, 12);
    // 0.2^2 / (2 * 800 uH * 8 kHz) = 3.125 mS; 1.5 V * 3 V / 1.5 V.
    expect(drawn({ kind: 'boost', inductance_uH: 800, frequency_kHz: 8, duty: 0.2 })).toBeCloseTo(
      0.009375,
      12,
    );
  });

  it('restarts a tenth of a volt above its cut-off unless stated', () => {
    expect(read({ kind: 'power', power_mW: 10, cutoff_V: 0.8 }).driver!.restart_V).toBeCloseTo(0.9, 12);
    expect(read({ kind: 'power', power_mW: 10, restart_needs: 'dusk' }).driver!.restartNeedsDusk).toBe(true);
  });
});

describe('problems about a driver', () => {
  it('refuse a restart at or below the cut-off', () => {
    for (const restart_V of [0.9, 0.8]) {
      const { driver, problems } = read({ kind: 'power', power_mW: 10, cutoff_V: 0.9, restart_V });
      expect(driver).toBeUndefined();
      expect(problems).toMatchObject([
        {
          code: 'SCENARIO_CONFLICT',
          path: ['restart_V'],
          got: `${restart_V} V`,
          expected: 'at least 0.001 V more than cutoff_V, 0.9 V',
        },
      ]);
      expect(problems[0]!.fix).toContain('chatter');
    }
  });

  it('take a restart a millivolt above the cut-off, and none nearer', () => {
    const restart = (restart_V: number) =>
      read({ kind: 'power', power_mW: 10, cutoff_V: 0.9, restart_V }).problems;
    expect(restart(0.901)).toEqual([]);
    expect(restart(0.9009)).toMatchObject([{ path: ['restart_V'] }]);
  });

  it('refuse a cut-off of less than 50 mV but for a conductance', () => {
    const cutoff = (cutoff_V: number) => read({ kind: 'power', power_mW: 10, cutoff_V }).problems;
    for (const cutoff_V of [0, 0.049]) expect(cutoff(cutoff_V)).toMatchObject([{ path: ['cutoff_V'] }]);
    expect(cutoff(0.05)).toEqual([]);
    const falling = (cutoff_V: number) => read({ kind: 'conductance', conductance_mS: 1, cutoff_V }).problems;
    for (const cutoff_V of [0, 0.001]) expect(falling(cutoff_V)).toEqual([]);
    expect(falling(5e-324)).toMatchObject([{ path: ['cutoff_V'] }]);
  });

  it('refuse tables whose voltage does not rise, in both places at once', () => {
    const rows = [1, 2, 2];
    const { problems } = read({
      kind: 'table',
      table: rows.map((capacitor_V) => ({ capacitor_V, current_mA: 5 })),
      efficiency: rows.map((capacitor_V) => ({ capacitor_V, efficiency: 0.8 })),
    });
    expect(problems.map(({ path }) => path)).toEqual([
      ['efficiency', 2, 'capacitor_V'],
      ['table', 2, 'capacitor_V'],
    ]);
  });
});
