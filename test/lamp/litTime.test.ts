import { describe, expect, it } from 'vitest';
import { fullVoltage_V, litTime } from '../../sim/lamp/litTime.ts';
import { secondsToCutoff } from '../year/secondsToCutoff.ts';
import { idealLamp, type LampInput, makeLamp, RAW_CELL } from './makeLamp.ts';

const cutoff = { cutoff_V: 0.9, restart_V: 1 };
const BOOST = {
  kind: 'boost',
  inductance_uH: 800,
  frequency_kHz: 8,
  duty: 0.15,
  current_limit_mA: 30,
  ...cutoff,
} as const;

/** A capacitor whose dQ/dV rises from 90 F by a third at 2.7 V, and nothing else. */
const rising = { raw: { capacitance_F: 90, rise_F_V: 11 }, rated_V: 2.7 } as const;

const DRIVERS = {
  power: { kind: 'power', power_mW: 10, ...cutoff },
  current: { kind: 'current', current_mA: 5, ...cutoff },
  conductance: { kind: 'conductance', conductance_mS: 4, ...cutoff },
  boost: BOOST,
  'a boost above its boundary': { ...BOOST, duty: 0.4, inductance_uH: 8000 },
} as const satisfies Record<string, LampInput['driver']>;

describe('litTime', () => {
  it.each(Object.entries(DRIVERS))('of %s is what a dark night takes from a full capacitor', (_, driver) => {
    const lamp = idealLamp(driver, rising);
    const { byLaw_s, limited_s } = litTime(lamp, 2.4);
    expect(byLaw_s + limited_s).toBeLessThan(20 * 3600);
    expect(Math.abs((byLaw_s + limited_s) / secondsToCutoff(lamp, 2.4, 1e-8) - 1)).toBeLessThan(2e-6);
    expect(limited_s > 0).toBe('duty' in driver && driver.duty === 0.4);
  });

  it('grows with the inductance, but for the time above the boundary', () => {
    const of = (inductance_uH: number) =>
      litTime(idealLamp({ ...BOOST, duty: 0.4, inductance_uH }, rising), 2.4);
    const [one, two] = [of(8000), of(16_000)];
    expect(two.byLaw_s / one.byLaw_s).toBeCloseTo(2, 12);
    expect(two.limited_s).toBe(one.limited_s);
  });

  it('of a measured table is none', () => {
    const table = [
      { capacitor_V: 1, current_mA: 5 },
      { capacitor_V: 2, current_mA: 9 },
    ];
    expect(litTime(idealLamp({ kind: 'table', table, ...cutoff }, rising), 2.4).byLaw_s).toBeNaN();
  });

  it('of parts as they are sold falls short of a dark night by the delayed charge, a tenth, and little else', () => {
    const lamp = makeLamp({
      cell: RAW_CELL,
      diode: { switch_on_ohm: 0.01 },
      capacitor: { capacitance_F: 360, leakage_uA: 600, rated_V: 2.7 },
      driver: { ...BOOST, inductance_uH: 680, frequency_kHz: 9, duty: 0.2 },
      led: {
        table: [
          { current_mA: 0.5, forward_V: 2.6, efficacy_lm_W: 150 },
          { current_mA: 20, forward_V: 3.1, efficacy_lm_W: 120 },
        ],
      },
      jar: { fixed_degC: 5 },
      schedule: { on: 'dusk', until: 'dawn' },
    });
    const { byLaw_s, limited_s } = litTime(lamp, 2.3);
    // Leakage and the LED's voltage, which falls as the bank empties, take and give some percent.
    const share = (byLaw_s + limited_s) / secondsToCutoff(lamp, 2.3);
    expect(Math.abs(share - 1 / 1.1)).toBeLessThan(0.05);
  });
});

describe('fullVoltage_V', () => {
  it('is what the sun, the rating and the limiter allow', () => {
    const of = (capacitor: LampInput['capacitor']) => fullVoltage_V(idealLamp(DRIVERS.power, capacitor));
    expect(of({ raw: { capacitance_F: 100 }, rated_V: 1.8 })).toBe(1.8);
    expect(of({ raw: { capacitance_F: 100 }, rated_V: 2.7, limiter: { at_V: 1.5 } })).toBe(1.5);
    const reached_V = of({ raw: { capacitance_F: 100 }, rated_V: 5 });
    expect(reached_V).toBeGreaterThan(2.2);
    expect(reached_V).toBeLessThan(2.7);
  });
});
