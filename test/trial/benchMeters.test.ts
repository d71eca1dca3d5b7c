import { describe, expect, it } from 'vitest';
import { benchChecks } from '../../sim/trial/benchChecks.ts';
import { restingVoltage_V } from '../../sim/trial/benchMeters.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';

const LIMITERS_V = [1.8, 2.2, 2.3];

/** What a capacitor with a limiter is read at, after hours at rest from where the sun leaves it. */
function rested_V(at_V: number, hours: number, changes: Partial<LampInput>): number {
  const { capacitor = libraryLamp().capacitor, ...others } = changes;
  const lamp = makeLamp(libraryLamp({ ...others, capacitor: { ...capacitor, limiter: { at_V } } }));
  return restingVoltage_V(lamp, at_V + 0.03, 8, hours);
}

describe('a capacitor at rest, from above the voltage of its limiter', () => {
  const driver = { kind: 'power', power_mW: 17, cutoff_V: 0.9 } as const;

  it.each(LIMITERS_V)('is let down to %d V within minutes, then by its leakage', (at_V) => {
    const [soon_V, later_V] = [rested_V(at_V, 0.5, { driver }), rested_V(at_V, 72, { driver })];
    expect(soon_V).toBeLessThan(at_V + 1e-3);
    expect(soon_V).toBeGreaterThan(at_V - 0.05);
    expect(later_V).toBeLessThan(soon_V);
    expect(later_V).toBeGreaterThan(at_V - 0.5);
  });

  it.each(LIMITERS_V)('stays at %d V where nothing else draws', (at_V) => {
    const still_V = rested_V(at_V, 72, {
      driver: { ...driver, standby_uA: 0 },
      capacitor: { raw: { capacitance_F: 100 }, rated_V: 2.7 },
      diode: { switch_on_ohm: 0.05 },
    });
    expect(still_V).toBeCloseTo(at_V, 6);
  });

  it.each(LIMITERS_V)('falls from %d V as its resistance and its branches have it', (at_V) => {
    const delayed_branches = [{ resistance_ohm: 10, capacitance_F: 20 }];
    const fallen_V = rested_V(at_V, 72, {
      driver: { ...driver, standby_uA: 0, below_cutoff_uA: 0 },
      capacitor: { raw: { capacitance_F: 100, leakage_ohm: 1000, delayed_branches }, rated_V: 2.7 },
      diode: { switch_on_ohm: 0.05 },
    });
    // 120 F on 1000 ohm for three days, less the minute in which the limiter drew.
    expect(fallen_V / (at_V * Math.exp((-72 * 3600) / 120_000))).toBeCloseTo(1, 2);
  });

  it('is read for a whole sheet in a second or two: no step of a millisecond in three days', () => {
    const lamp = makeLamp(
      libraryLamp({
        driver: { ...driver, standby_uA: 0 },
        capacitor: { raw: { capacitance_F: 100, leakage_ohm: 1e4 }, rated_V: 2.7, limiter: { at_V: 2.2 } },
        diode: { switch_on_ohm: 0.05 },
      }),
    );
    const begin = process.cpuUsage().user;
    expect(benchChecks(lamp, 1).every(({ low, high }) => low <= high)).toBe(true);
    expect((process.cpuUsage().user - begin) / 1e6).toBeLessThan(5);
  });
});

it('a capacitor that no light fills rests at 0 V', () => {
  expect(restingVoltage_V(makeLamp(libraryLamp()), 0, 8, 14)).toBe(0);
});
