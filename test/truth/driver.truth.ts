import { driverParams } from '../../sim/lamp/driver/params.ts';
import { driverSchema } from '../../sim/lamp/driver/schema.ts';
import { idealCapacitor, idealLamp } from '../lamp/makeLamp.ts';
import { secondsToCutoff } from '../year/secondsToCutoff.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Boost driver';
const erickson =
  'R. W. Erickson and D. Maksimovic, Fundamentals of Power Electronics, chapter 5: D 0.4, 100 kHz, 10 uH, 300 ohm (from memory), evaluated apart';
const IN_V = 2;
const OUT_V = 10.84886;

function drawn_A(): number {
  const section = driverSchema.parse({
    kind: 'boost',
    inductance_uH: 10,
    frequency_kHz: 100,
    duty: 0.4,
    cutoff_V: 0.9,
  });
  const driver = driverParams(section, () => {
    throw new Error('problem');
  });
  return driver!.law.current_A(IN_V, OUT_V);
}

const one = (
  what: string,
  unit: string,
  expected: number,
  tolerance: number,
  why: string,
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit,
  expected,
  tolerance,
  why,
  source: erickson,
  status: 'computed, from memory',
  compute,
});

/** 100 F from 2.4 to 0.9 V through a boost of 800 uH, 8 kHz, duty 0.15 into 3 V. */
const lit_s = () =>
  secondsToCutoff(
    idealLamp(
      {
        kind: 'boost',
        inductance_uH: 800,
        frequency_kHz: 8,
        duty: 0.15,
        current_limit_mA: 30,
        cutoff_V: 0.9,
        restart_V: 1,
      },
      idealCapacitor(100),
    ),
    2.4,
    1e-7,
  );
const k_S = 0.15 ** 2 / (2 * 800e-6 * 8e3);

export const cases: TruthCase[] = [
  one('input current at 2 V into 10.849 V', 'A', 0.1961629, 1e-6, 'seven digits', drawn_A),
  one('input power at 2 V into 10.849 V', 'W', 0.3923257, 2e-6, 'seven digits', () => IN_V * drawn_A()),
  one(
    'power over the inductor energy alone',
    '1',
    1.226018,
    1e-5,
    'seven digits',
    () => (IN_V * drawn_A()) / 0.32,
  ),
  {
    ...one(
      'seconds from 2.4 to 0.9 V into a constant 3 V',
      's',
      (100 / k_S) * (Math.log(2.4 / 0.9) - 1.5 / 3),
      0.03,
      'one part in a million',
      lit_s,
    ),
    source:
      'closed form (C/k) [ln(V0/V) - (V0 - V)/Vout], k = D^2/(2 L f): the same equation integrated here, in no book that was seen',
    status: 'derived here',
  },
];
