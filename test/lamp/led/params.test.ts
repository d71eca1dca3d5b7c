import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../../sim/common/InputProblem.ts';
import { ledParams } from '../../../sim/lamp/led/params.ts';
import { ledSchema } from '../../../sim/lamp/led/schema.ts';
import { ledAtPower } from '../../../sim/lamp/led/step.ts';

const row = (current_mA: number, forward_V: number, efficacy_lm_W = 180) => ({
  current_mA,
  forward_V,
  efficacy_lm_W,
});

function read(input: z.input<typeof ledSchema>) {
  const problems: ValueProblem[] = [];
  return { led: ledParams(ledSchema.parse(input), (problem) => problems.push(problem)), problems };
}

describe('an LED', () => {
  it('takes at every power a current and a voltage whose product is that power', () => {
    const { led } = read({ table: [row(1, 2.6), row(5, 2.7, 200), row(30, 3, 160)] });
    for (let power_W = 1e-4; power_W < 0.2; power_W *= 1.1) {
      const state = ledAtPower(led!, power_W);
      expect(state.current_A * state.forward_V).toBeCloseTo(power_W, 12);
    }
    expect(ledAtPower(led!, 0.0135)).toMatchObject({ forward_V: 2.7, light_lm: expect.closeTo(2.7, 9) });
    expect(ledAtPower(led!, 0)).toMatchObject({ current_A: 0, light_lm: 0 });
  });

  it('shares the current among LEDs in parallel and adds up the voltage of a string', () => {
    const one = read({ table: [row(1, 2.6), row(10, 2.8)] }).led!;
    const bank = read({ table: [row(1, 2.6), row(10, 2.8)], count: 3, in_series: 2 }).led!;
    const alone = ledAtPower(one, 0.02);
    const together = ledAtPower(bank, 6 * 0.02);
    expect(together.current_A).toBeCloseTo(3 * alone.current_A, 12);
    expect(together.forward_V).toBeCloseTo(2 * alone.forward_V, 12);
    expect(together.light_lm).toBeCloseTo(6 * alone.light_lm, 12);
  });
});

describe('problems about an LED', () => {
  it('ask for a table where there is nothing', () => {
    expect(read({}).problems).toMatchObject([{ code: 'SCENARIO_MISSING_KEY', path: ['table'] }]);
  });

  it('refuse rows whose current does not rise or whose voltage falls', () => {
    for (const table of [
      [row(5, 2.7), row(5, 2.8)],
      [row(5, 2.7), row(10, 2.6)],
    ]) {
      const { led, problems } = read({ table });
      expect(led).toBeUndefined();
      expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['table', 1] }]);
      expect(problems[0]!.got).toContain('after 5 mA at 2.7 V');
    }
  });
});
