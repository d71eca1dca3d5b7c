import { diodeParams } from '../../sim/lamp/diode/params.ts';
import { diodeSchema } from '../../sim/lamp/diode/schema.ts';
import { diodeSaturation_A } from '../../sim/lamp/diode/step.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Blocking diode';
const shockley =
  'W. Shockley, Bell System Technical Journal 28 (1949) 435: the diode law, from memory, evaluated apart';
const bethe =
  'H. A. Bethe, MIT Radiation Laboratory report 43-12 (1942): square of the temperature times the barrier, from memory, evaluated apart';

const diode = (input: Parameters<typeof diodeSchema.parse>[0]) =>
  diodeParams(diodeSchema.parse(input), () => {
    throw new Error('problem');
  })!;

const two = () =>
  diode({
    forward_drop: [
      { current_mA: 1, drop_V: 0.2 },
      { current_mA: 10, drop_V: 0.265 },
    ],
  });

const one = (
  what: string,
  unit: string,
  expected: number,
  tolerance: number,
  source: string,
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit,
  expected,
  tolerance,
  why: 'the digits stated',
  source,
  status: 'computed, from memory',
  compute,
});

export const cases: TruthCase[] = [
  // 65 mV a decade over kT/q ln 10 = 59.159 mV at 25 degC.
  one(
    'ideality of a diode that gains 65 mV a decade at 25 degC',
    '1',
    1.0987,
    2e-4,
    shockley,
    () => two().ideality,
  ),
  // 1 mA / (exp(0.2 V / 28.229 mV) - 1).
  one(
    'saturation current of a diode of 0.2 V at 1 mA and 65 mV a decade',
    'uA',
    0.8384,
    1e-3,
    shockley,
    () => two().saturation_A * 1e6,
  ),
  // (273.15 / 298.15)^2 exp(0.69 / 1.05 * (1 / 25.693 mV - 1 / 23.538 mV)).
  one(
    'saturation current at 0 over that at 25 degC, barrier 0.69 eV, ideality 1.05',
    '1',
    0.08077,
    2e-5,
    bethe,
    () => {
      const params = diode({
        forward_drop: [{ current_mA: 10, drop_V: 0.2 }],
        barrier_eV: 0.69,
        ideality: 1.05,
      });
      return diodeSaturation_A(params, 0) / diodeSaturation_A(params, 25);
    },
  ),
];
