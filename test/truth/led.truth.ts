import { ledParams } from '../../sim/lamp/led/params.ts';
import { ledSchema } from '../../sim/lamp/led/schema.ts';
import { ledAtPower } from '../../sim/lamp/led/step.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'LED';
const led = (input: Parameters<typeof ledSchema.parse>[0]) =>
  ledParams(ledSchema.parse(input), () => {
    throw new Error('problem');
  })!;
const green = () => led({ raw: { forward_V: 2.3, efficacy_lm_W: 683 } });
const pair = () =>
  led({
    table: [
      { current_mA: 5, forward_V: 2.7, efficacy_lm_W: 200 },
      { current_mA: 15, forward_V: 2.8, efficacy_lm_W: 180 },
    ],
    count: 2,
    in_series: 2,
  });

const one = (
  what: string,
  unit: string,
  expected: number,
  source: string,
  compute: () => number,
  status: TruthCase['status'] = 'derived here',
): TruthCase => ({
  topic,
  what,
  unit,
  expected,
  tolerance: expected * 1e-9,
  why: 'exact',
  source,
  status,
  compute,
});
const arithmetic = 'arithmetic of power, current and voltage';

export const cases: TruthCase[] = [
  one(
    'lumens of a watt at 540 THz',
    'lm',
    683,
    'definition of the candela (SI brochure, 9th edition)',
    () => ledAtPower(green(), 1).light_lm,
    'input',
  ),
  // Two strings of two: 20 mA at 2 * 2.75 V takes 110 mW and gives 190 lm/W, half way between the rows.
  one(
    'current of two strings of two LEDs at 110 mW',
    'mA',
    20,
    arithmetic,
    () => ledAtPower(pair(), 0.11).current_A * 1000,
  ),
  one('forward voltage of those strings', 'V', 5.5, arithmetic, () => ledAtPower(pair(), 0.11).forward_V),
  one('lumens of those strings', 'lm', 0.11 * 190, arithmetic, () => ledAtPower(pair(), 0.11).light_lm),
];
