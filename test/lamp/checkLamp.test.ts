import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ValueProblem } from '../../sim/common/InputProblem.ts';
import { checkLamp } from '../../sim/lamp/checkLamp.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { settleLamp } from '../../sim/lamp/settleLamp.ts';

type Lamp = z.input<typeof lampSchema>;

/** Raw cell: open circuit 2.4 V; raw diode without drop to speak of, so that the reachable voltage is near it. */
const SOUND: Lamp = {
  cell: {
    raw: { photocurrent_A: 0.5, saturation_A: 3.6e-11, ideality: 1, series_ohm: 0.1, shunt_ohm: 1e6 },
    cells_in_series: 4,
  },
  diode: { raw: { saturation_A: 1e-3, ideality: 1 }, barrier_eV: 0 },
  capacitor: { raw: { capacitance_F: 500, series_ohm: 0.01 }, rated_V: 2.7 },
  driver: {
    kind: 'boost',
    inductance_uH: 800,
    frequency_kHz: 8,
    duty: 0.2,
    current_limit_mA: 30,
    cutoff_V: 0.9,
    restart_V: 1,
  },
  led: { raw: { forward_V: 3, efficacy_lm_W: 200 } },
  jar: { fixed_degC: 25 },
  schedule: { hours: 6 },
};

function check(changes: Partial<Lamp>, start_V?: number): { flags: string[]; problems: ValueProblem[] } {
  const problems: ValueProblem[] = [];
  const lamp = settleLamp(lampSchema.parse({ ...SOUND, ...changes }), (problem) => problems.push(problem));
  if (lamp === undefined) throw new Error(problems.map(({ got }) => got).join());
  return { flags: checkLamp(lamp.params, (problem) => problems.push(problem), start_V), problems };
}

/** Boost with some keys changed. */
const boost = (changes: object): Lamp['driver'] => ({ ...SOUND.driver, ...changes }) as Lamp['driver'];

describe('checkLamp', () => {
  it('says what the promise of a lamp that flashes or waits for motion is held against', () => {
    expect(check({ schedule: { hours: 6, on_share: 0.15 } }).flags).toEqual([
      'It flashes (on_share 0.15): what counts as lit is its light while on. Pulses too fast to be seen are dimming: dim: [{ after_h: 0, light_share: 0.15 }].',
    ]);
    // 1 - exp(-6 * 60 / 3600).
    expect(check({ schedule: { hours: 6, motion: { triggers_per_h: 6, shines_s: 60 } } }).flags).toEqual([
      'It waits for motion, expected 6 times an hour and drawn by the seed, and is on for some 9.5 percent of its time; it counts as lit while it would shine if motion came.',
    ]);
    expect(check({ schedule: { hours: 6 } }).flags).toEqual([]);
  });

  it('has nothing against a sound lamp', () => {
    expect(check({})).toEqual({ flags: [], problems: [] });
  });

  it('refuses a series resistance that takes more than all of the voltage of the cell', () => {
    // 1.25 * 2.4 V / 0.5 A = 6 ohm.
    const diode = (series_ohm: number) =>
      check({ diode: { raw: { saturation_A: 1e-3, ideality: 1, series_ohm }, barrier_eV: 0 } }).problems;
    expect(diode(5.9)).toEqual([]);
    for (const series_ohm of [6.1, 1000]) {
      expect(diode(series_ohm)).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['diode', 'series_ohm'] }]);
    }
    const driver = boost({ restart_V: 1.5 });
    const bank = (series_ohm: number) =>
      check({ driver, capacitor: { raw: { capacitance_F: 10, series_ohm }, rated_V: 2.7 } }).problems;
    expect(bank(5.9)).toEqual([]);
    expect(bank(6.1)).toMatchObject([{ path: ['capacitor', 'esr_mohm'] }]);
  });

  it('refuses a cell of more than twenty times the rated voltage of the capacitor, whatever its limiter takes', () => {
    const rated = (rated_V: number) =>
      check({ capacitor: { raw: { capacitance_F: 500, series_ohm: 0.01 }, rated_V } }).problems;
    // 2.4 V.
    expect(rated(0.121)).toEqual([]);
    expect(
      check({
        capacitor: { ...SOUND.capacitor, rated_V: 0.119, limiter: { at_V: 0.11 } },
        driver: boost({ cutoff_V: 0.05, restart_V: 0.1 }),
      }).problems,
    ).toMatchObject([{ path: ['capacitor', 'rated_V'] }]);
    expect(rated(0.119)).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['capacitor', 'rated_V'] }]);
  });

  it('refuses a cut-off at or above the reachable voltage in full sun', () => {
    // Open circuit: 4 kT/q ln(1 + 0.5 / 3.6e-11) = 0.10277 V * 23.354 = 2.400 V; the drain costs nothing.
    const { problems } = check({ driver: boost({ cutoff_V: 2.41, restart_V: 2.5 }) });
    expect(problems).toEqual([
      {
        code: 'LAMP_CUTOFF_ABOVE_REACHABLE',
        path: ['driver', 'cutoff_V'],
        got: 'a cut-off of 2.41 V, and a reachable voltage of 2.40 V in full sun at 25 degC',
        expected: 'a cut-off below the reachable voltage: this capacitor can never light the LED',
        fix: 'lower cutoff_V, or take a cell of more voltage or a diode of less drop.',
      },
    ]);
    expect(check({ driver: boost({ cutoff_V: 2.38, restart_V: 2.39 }) }).problems).toEqual([]);
  });

  it('lowers the reachable voltage by a leakage that the cell must carry', () => {
    // 0.5 V across 4 ohm of leakage would take 0.6 A at 2.4 V: the capacitor stays near 0.5 A * 4 ohm = 2 V.
    const { problems } = check({
      capacitor: { raw: { capacitance_F: 500, leakage_ohm: 4 }, rated_V: 2.7 },
      driver: boost({ cutoff_V: 2.05, restart_V: 2.2 }),
    });
    expect(problems.map(({ code }) => code)).toEqual(['LAMP_CUTOFF_ABOVE_REACHABLE']);
  });

  it('refuses a boost whose capacitor reaches the output', () => {
    const { problems } = check({ led: { raw: { forward_V: 2.3, efficacy_lm_W: 200 } } });
    expect(problems).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        path: ['driver', 'kind'],
        got: 'a capacitor that reaches 2.40 V on a boost whose output is 2.30 V',
      },
    ]);
    expect(problems[0]!.expected).toContain('conducts straight through');
    // A rectifier's drop, a limiter or another kind of driver each mend it.
    const low = { led: { raw: { forward_V: 2.3, efficacy_lm_W: 200 } } };
    const limited = { ...SOUND.capacitor, limiter: { at_V: 2.1 } };
    expect(check({ ...low, driver: boost({ rectifier_drop_V: 0.3 }) }).problems).toEqual([]);
    expect(check({ ...low, capacitor: limited }).problems).toEqual([]);
    expect(check({ ...low, driver: { kind: 'power', power_mW: 9 } }).problems).toEqual([]);
  });

  it('refuses a boost whose capacitor starts at or above the output', () => {
    expect(check({}, 3).problems).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        got: 'a capacitor that starts at 3.00 V on a boost whose output is 3.00 V',
      },
    ]);
  });

  it('asks for a current limit where discontinuous conduction ends', () => {
    const noLimit = boost({ current_limit_mA: undefined });
    // (1 - 0.2) * 3 V = 2.4 V is just reached; (1 - 0.1) * 3 V = 2.7 V is not.
    expect(check({ driver: noLimit }).problems).toMatchObject([
      { code: 'SCENARIO_MISSING_KEY', path: ['driver', 'current_limit_mA'] },
    ]);
    expect(check({ driver: boost({ current_limit_mA: undefined, duty: 0.1 }) }).problems).toEqual([]);
    // In the cold the cell gives 45 K * 8.8 mV/K = 0.40 V more.
    const cold = check({ driver: boost({ current_limit_mA: undefined, duty: 0.1 }), jar: {} });
    expect(cold.problems).toMatchObject([{ code: 'SCENARIO_MISSING_KEY' }]);
    expect(cold.problems[0]!.expected).toContain('the capacitor reaches 2.80 V');
  });

  it('flags a start above the rated voltage, and refuses one more than half above it', () => {
    const power = { driver: { kind: 'power', power_mW: 17, cutoff_V: 0.9 } } as const;
    expect(check(power, 4.04).problems).toEqual([]);
    expect(check(power, 4.04).flags.join()).toContain('the capacitor starts at 4.04 V');
    const [problem] = check(power, 12).problems;
    expect(problem).toMatchObject({
      code: 'SCENARIO_OUT_OF_RANGE',
      fix: expect.stringContaining('start.capacitor_V'),
    });
  });

  it('refuses a restart so near the cut-off that the capacitor springs back over it', () => {
    // At 0.9 V the boost draws 0.03125^2... = 3.125 mS * 0.9 V * 3 / 2.1 = 4.018 mA; times 50 ohm is 0.20 V.
    const { problems } = check({
      capacitor: { raw: { capacitance_F: 16, series_ohm: 5 }, rated_V: 2.7 },
      driver: boost({ restart_V: 0.91 }),
    });
    expect(problems).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        path: ['driver', 'restart_V'],
        got: '0.91 V, 0.01 V above the cut-off',
        expected:
          'more than 0.02 V above it: so far the capacitor springs back when 4.02 mA stop flowing through its resistance at 25 degC',
      },
    ]);
  });

  it('takes the resistance of a frosty night for that', () => {
    const capacitor = { capacitance_F: 16, rated_V: 2.7, leakage_uA: 700, esr_mohm: 5_000 };
    const driver = boost({ restart_V: 0.925 });
    const { problems } = check({ driver, capacitor: { ...capacitor, esr_factor_minus20: 1 }, jar: {} });
    expect(problems).toEqual([]);
    const cold = check({ driver, capacitor, jar: {} }).problems;
    expect(cold).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['driver', 'restart_V'] }]);
    // 4.02 mA times 7.5 ohm.
    expect(cold[0]!.expected).toMatch(/^more than 0\.03 V above it.* at -20 degC$/);
  });

  it('flags a capacitor driven above its rated voltage, and does not refuse it', () => {
    const low = { ...SOUND.capacitor, rated_V: 2.3 };
    const { flags, problems } = check({ capacitor: low });
    expect(problems).toEqual([]);
    expect(flags).toHaveLength(1);
    expect(flags[0]).toMatch(
      /^Above the rated voltage: full sun drives the capacitor to 2\.40 V .* rated 2\.30 V/,
    );
    expect(check({ capacitor: { ...low, limiter: { at_V: 2.2 } } }).flags).toEqual([]);
  });

  it('flags a capacitor that starts above its rated voltage', () => {
    const { flags } = check({}, 2.8);
    expect(flags).toEqual([
      'Above the rated voltage: the capacitor starts at 2.80 V, and it is rated 2.70 V.',
    ]);
  });

  it('flags a rated voltage above the output of a boost, which something else could charge it to', () => {
    const { flags, problems } = check({ capacitor: { ...SOUND.capacitor, series: 2 } });
    expect(problems).toEqual([]);
    expect(flags[0]).toMatch(/^The capacitor is rated 5\.40 V, above the LED's 3\.00 V/);
  });
});
