import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { Complaint } from '../../sim/common/Complaint.ts';
import { checkLamp } from '../../sim/lamp/checkLamp.ts';
import { lampParams } from '../../sim/lamp/params.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';

type Lamp = z.input<typeof lampSchema>;

/** Raw cell: open circuit 2.4 V; raw diode without drop to speak of, so that the ceiling is near it. */
const SOUND: Lamp = {
  cell: {
    raw: { photocurrent_A: 0.5, saturation_A: 3.6e-11, ideality: 1, series_ohm: 0.1, shunt_ohm: 1e6 },
    cells_in_series: 4,
  },
  diode: { raw: { saturation_A: 1e-3, ideality: 1 }, barrier_eV: 0 },
  store: { raw: { capacitance_F: 500, series_ohm: 0.01 }, rated_V: 2.7 },
  driver: {
    kind: 'boost',
    inductance_uH: 800,
    frequency_kHz: 8,
    duty: 0.2,
    current_limit_mA: 30,
    floor_V: 0.9,
    restart_V: 1,
  },
  led: { raw: { forward_V: 3, efficacy_lm_W: 200 } },
  jar: { fixed_degC: 25 },
  schedule: { hours: 6 },
};

function check(changes: Partial<Lamp>, start_V?: number): { flags: string[]; complaints: Complaint[] } {
  const complaints: Complaint[] = [];
  const lamp = lampParams(lampSchema.parse({ ...SOUND, ...changes }), (complaint) =>
    complaints.push(complaint),
  );
  if (lamp === undefined) throw new Error(complaints.map(({ got }) => got).join());
  return { flags: checkLamp(lamp, (complaint) => complaints.push(complaint), start_V), complaints };
}

/** Boost with some keys changed. */
const boost = (changes: object): Lamp['driver'] => ({ ...SOUND.driver, ...changes }) as Lamp['driver'];

describe('checkLamp', () => {
  it('has nothing against a sound lamp', () => {
    expect(check({})).toEqual({ flags: [], complaints: [] });
  });

  it('refuses a floor at or above the ceiling in full sun', () => {
    // Open circuit: 4 kT/q ln(1 + 0.5 / 3.6e-11) = 0.10277 V * 23.354 = 2.400 V; the drain costs nothing.
    const { complaints } = check({ driver: boost({ floor_V: 2.41, restart_V: 2.5 }) });
    expect(complaints).toEqual([
      {
        code: 'LAMP_FLOOR_ABOVE_CEILING',
        path: ['driver', 'floor_V'],
        got: 'a floor of 2.41 V, and a ceiling of 2.40 V in full sun at 25 degC',
        expected: 'a floor below the ceiling: this store can never light the LED',
        fix: 'lower floor_V, or take a cell of more voltage or a diode of less drop.',
      },
    ]);
    expect(check({ driver: boost({ floor_V: 2.38, restart_V: 2.39 }) }).complaints).toEqual([]);
  });

  it('lowers the ceiling by a leakage that the cell must carry', () => {
    // 0.5 V across 4 ohm of leakage would take 0.6 A at 2.4 V: the store stays near 0.5 A * 4 ohm = 2 V.
    const { complaints } = check({
      store: { raw: { capacitance_F: 500, leakage_ohm: 4 }, rated_V: 2.7 },
      driver: boost({ floor_V: 2.05, restart_V: 2.2 }),
    });
    expect(complaints.map(({ code }) => code)).toEqual(['LAMP_FLOOR_ABOVE_CEILING']);
  });

  it('refuses a boost whose store reaches the output', () => {
    const { complaints } = check({ led: { raw: { forward_V: 2.3, efficacy_lm_W: 200 } } });
    expect(complaints).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        path: ['driver', 'kind'],
        got: 'a store that reaches 2.40 V on a boost whose output is 2.30 V',
      },
    ]);
    expect(complaints[0]!.expected).toContain('conducts straight through');
    // A rectifier's drop, a limiter or another kind of driver each mend it.
    const low = { led: { raw: { forward_V: 2.3, efficacy_lm_W: 200 } } };
    const limited = { ...SOUND.store, limiter: { at_V: 2.1 } };
    expect(check({ ...low, driver: boost({ rectifier_drop_V: 0.3 }) }).complaints).toEqual([]);
    expect(check({ ...low, store: limited }).complaints).toEqual([]);
    expect(check({ ...low, driver: { kind: 'power', power_mW: 9 } }).complaints).toEqual([]);
  });

  it('refuses a boost whose store starts at or above the output', () => {
    expect(check({}, 3).complaints).toMatchObject([
      { code: 'SCENARIO_CONFLICT', got: 'a store that starts at 3.00 V on a boost whose output is 3.00 V' },
    ]);
  });

  it('asks for a current limit where the choke no longer runs empty', () => {
    const noLimit = boost({ current_limit_mA: undefined });
    // (1 - 0.2) * 3 V = 2.4 V is just reached; (1 - 0.1) * 3 V = 2.7 V is not.
    expect(check({ driver: noLimit }).complaints).toMatchObject([
      { code: 'SCENARIO_MISSING_KEY', path: ['driver', 'current_limit_mA'] },
    ]);
    expect(check({ driver: boost({ current_limit_mA: undefined, duty: 0.1 }) }).complaints).toEqual([]);
    // In the cold the cell gives 45 K * 8.8 mV/K = 0.40 V more.
    const cold = check({ driver: boost({ current_limit_mA: undefined, duty: 0.1 }), jar: {} });
    expect(cold.complaints).toMatchObject([{ code: 'SCENARIO_MISSING_KEY' }]);
    expect(cold.complaints[0]!.expected).toContain('the store reaches 2.80 V');
  });

  it('refuses a restart so near the floor that the store springs back over it', () => {
    // At 0.9 V the boost draws 0.03125^2... = 3.125 mS * 0.9 V * 3 / 2.1 = 4.018 mA; times 50 ohm is 0.20 V.
    const { complaints } = check({ store: { raw: { capacitance_F: 500, series_ohm: 50 }, rated_V: 2.7 } });
    expect(complaints).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        path: ['driver', 'restart_V'],
        got: '1.00 V, 0.10 V above the floor',
        expected:
          'more than 0.20 V above it: so far the store springs back when 4.02 mA stop flowing through its resistance',
      },
    ]);
  });

  it('flags a store driven above its rated voltage, and does not refuse it', () => {
    const low = { ...SOUND.store, rated_V: 2.3 };
    const { flags, complaints } = check({ store: low });
    expect(complaints).toEqual([]);
    expect(flags).toHaveLength(1);
    expect(flags[0]).toMatch(
      /^Above the rated voltage: full sun drives the store to 2\.40 V .* rated 2\.30 V/,
    );
    expect(check({ store: { ...low, limiter: { at_V: 2.2 } } }).flags).toEqual([]);
  });

  it('flags a store that starts above its rated voltage', () => {
    const { flags } = check({}, 2.8);
    expect(flags).toEqual(['Above the rated voltage: the store starts at 2.80 V, and it is rated 2.70 V.']);
  });

  it('flags a rated voltage above the output of a boost, which something else could charge it to', () => {
    const { flags, complaints } = check({ store: { ...SOUND.store, series: 2 } });
    expect(complaints).toEqual([]);
    expect(flags[0]).toMatch(/^The store is rated 5\.40 V, above the LED's 3\.00 V/);
  });
});
