import { describe, expect, it } from 'vitest';
import { idealCapacitor, idealLamp } from '../lamp/makeLamp.ts';
import { secondsToCutoff } from './secondsToCutoff.ts';

const CAPACITANCE_F = 100;
const START_V = 2.4;
const FLOOR_V = 0.9;
const cutoff = { cutoff_V: FLOOR_V, restart_V: 1 };
const capacitor = idealCapacitor(CAPACITANCE_F);

const LAWS = [
  {
    name: 'constant power',
    lamp: idealLamp({ kind: 'power', power_mW: 10, ...cutoff }, capacitor),
    closed_s: (CAPACITANCE_F * (START_V ** 2 - FLOOR_V ** 2)) / (2 * 0.01),
  },
  {
    name: 'constant current',
    lamp: idealLamp({ kind: 'current', current_mA: 5, ...cutoff }, capacitor),
    closed_s: (CAPACITANCE_F * (START_V - FLOOR_V)) / 0.005,
  },
  {
    name: 'conductance',
    lamp: idealLamp({ kind: 'conductance', conductance_mS: 4, ...cutoff }, capacitor),
    closed_s: (CAPACITANCE_F / 0.004) * Math.log(START_V / FLOOR_V),
  },
  {
    name: 'boost',
    // D2/(2 L f) = 0.04 / (2 * 800e-6 * 8e3) = 3.125 mS; the limit never holds, since 2.4 V < 0.85 * 3 V.
    lamp: idealLamp(
      { kind: 'boost', inductance_uH: 800, frequency_kHz: 8, duty: 0.15, current_limit_mA: 30, ...cutoff },
      capacitor,
    ),
    closed_s:
      (CAPACITANCE_F / (0.15 ** 2 / (2 * 800e-6 * 8e3))) *
      (Math.log(START_V / FLOOR_V) - (START_V - FLOOR_V) / 3),
  },
];

describe('a night without light on an ideal capacitor', () => {
  for (const { name, lamp, closed_s } of LAWS) {
    it(`reaches the cut-off at the closed form's instant to 1e-6 with ${name}, at a tight tolerance`, () => {
      expect(Math.abs(secondsToCutoff(lamp, START_V, 1e-8) / closed_s - 1)).toBeLessThan(1e-6);
    });

    it(`reaches the cut-off within 5 s of the closed form with ${name}, at the default tolerance`, () => {
      const got_s = secondsToCutoff(lamp, START_V);
      // Measured: 2.5 s with the boost, 40 uV at 16 uV/s; a night may be 30 s off.
      expect(Math.abs(got_s - closed_s)).toBeLessThan(5);
    });
  }

  it('reaches the terminal cut-off behind a series resistance at the instant of the numeric integral', () => {
    // 10 F, 2.7 to 0.9 V at the terminals, 0.1 W, 1 ohm: 303.08 s (numeric integral, two decimals). Start at the inner 2.7 V.
    const lamp = idealLamp(
      { kind: 'power', power_mW: 100, cutoff_V: 0.9, restart_V: 1.5 },
      idealCapacitor(10, 1),
    );
    expect(Math.abs(secondsToCutoff(lamp, 2.7, 1e-7) - 303.08)).toBeLessThan(0.006);
    const got_s = secondsToCutoff(lamp, 2.7);
    expect(Math.abs(got_s - 303.08)).toBeLessThan(0.5);
  });
});
