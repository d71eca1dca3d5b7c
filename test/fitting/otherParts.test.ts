import { expect, it } from 'vitest';
import type { ValueProblem } from '../../sim/common/InputProblem.ts';
import { randomStream } from '../../sim/common/random.ts';
import { diodeFromReadings } from '../../sim/lamp/diode/readings.ts';
import { diodeSchema } from '../../sim/lamp/diode/schema.ts';
import { driverFromReadings } from '../../sim/lamp/driver/readings.ts';
import { driverSchema } from '../../sim/lamp/driver/schema.ts';
import { jarSchema } from '../../sim/lamp/jar/schema.ts';
import { ledSchema } from '../../sim/lamp/led/schema.ts';
import { settledPart } from '../lamp/makeLamp.ts';

const THERMAL_V = (1.380649e-23 / 1.602176634e-19) * 298.15;

it('the 90 percent intervals of a diode read at two currents hold its parameters in 344 to 376 of 400 repeats', () => {
  const [saturation_A, ideality] = [3e-6, 1.08];
  const held = { saturation_A: 0, ideality: 0 };
  for (let seed = 1; seed <= 400; seed++) {
    const random = randomStream(seed, 'readings of a diode');
    const meter = 1 + 0.0025 * random.normal();
    // The temperature is off by 1 K: the saturation current follows the barrier, as the model has it at 25 degC.
    const forward = [1, 10].map((current_mA) => {
      const true_A = (current_mA / 1000) * (1 + 0.005 * random.normal());
      const drop_V = ideality * THERMAL_V * Math.log1p(true_A / saturation_A) * meter;
      return { current_mA, drop_V: Math.round(drop_V * 1e4) / 1e4 };
    });
    const section = diodeSchema.parse({
      readings: { forward, voltage_step_mV: 0.1, temperature_error_K: 0 },
    });
    const { estimates } = diodeFromReadings(section, section.readings!, (problem) => {
      throw new Error(JSON.stringify(problem));
    })!;
    for (const { key, low, high } of estimates) {
      const value = { saturation_A, ideality }[key as 'saturation_A' | 'ideality'];
      if (value >= low && value <= high) held[key as 'saturation_A' | 'ideality']++;
    }
  }
  for (const count of Object.values(held)) {
    expect(count).toBeGreaterThanOrEqual(344);
    expect(count).toBeLessThanOrEqual(376);
  }
});

it('diodeParams takes the readings in place of the forward drop of the datasheet', () => {
  const forward = [
    { current_mA: 1, drop_V: 1.05 * THERMAL_V * Math.log1p(1e-3 / 2e-6) },
    { current_mA: 10, drop_V: 1.05 * THERMAL_V * Math.log1p(1e-2 / 2e-6) },
  ];
  const section = diodeSchema.parse({
    forward_drop: [{ current_mA: 10, drop_V: 0.4 }],
    readings: { forward },
  });
  const { result, problems } = settledPart('diode', section);
  expect(problems).toEqual([]);
  expect(result!.saturation_A / 2e-6).toBeCloseTo(1, 2);
  expect(result!.ideality).toBeCloseTo(1.05, 3);
});

it('a drop that falls as the current rises is refused', () => {
  const section = diodeSchema.parse({
    readings: {
      forward: [
        { current_mA: 1, drop_V: 0.3 },
        { current_mA: 10, drop_V: 0.2 },
      ],
    },
  });
  const { problems } = settledPart('diode', section);
  expect(problems).toMatchObject([{ code: 'SCENARIO_CONFLICT', path: ['readings', 'forward', 1, 'drop_V'] }]);
});

const BOOST = { kind: 'boost', inductance_uH: 800, frequency_kHz: 8, duty: 0.2 } as const;
/** Current that a boost draws: V D^2 / (2 L f) Vout / (Vout - V). */
const boost_mA = (capacitor_V: number, led_V: number, henry: number) =>
  (1000 * capacitor_V * 0.2 ** 2 * led_V) / (2 * henry * 8e3 * (led_V - capacitor_V));

it('a boost is found by the inductance that draws as much, and by what it was seen to stop and restart at', () => {
  const section = driverSchema.parse({
    ...BOOST,
    readings: {
      rows: [1, 1.5, 2].map((capacitor_V) => ({
        capacitor_V,
        supply_mA: boost_mA(capacitor_V, 2.8, 900e-6),
        led_V: 2.8,
      })),
      cutoff_V: 0.85,
      restarts_V: 1.02,
      standby_uA: 20,
    },
  });
  const { result, problems } = settledPart('driver', section);
  expect(problems).toEqual([]);
  expect(result).toMatchObject({ cutoff_V: 0.85, restart_V: 1.02 });
  expect(result!.standby_A).toBeCloseTo(20e-6, 12);
  expect(result!.law.inductor!.inductance_uH).toBeCloseTo(900, 1);
});

it('supply and LED current together give the efficiency', () => {
  const section = driverSchema.parse({
    kind: 'power',
    power_mW: 20,
    readings: { rows: [{ capacitor_V: 2, supply_mA: 10, led_mA: 6, led_V: 2.8 }] },
  });
  const { result } = settledPart('driver', section);
  expect(result!.efficiency).toEqual([0.84]);
  expect(result!.law.setting).toMatchObject({ key: 'power_mW', value: 20 });
});

it('readings make the table of a driver that has none', () => {
  const section = driverSchema.parse({
    kind: 'table',
    readings: {
      rows: [
        { capacitor_V: 2.5, supply_mA: 8 },
        { capacitor_V: 1, supply_mA: 20 },
      ],
    },
  });
  const { result, problems } = settledPart('driver', section);
  expect(problems).toEqual([]);
  expect(result!.law.keys((value) => value)).toEqual({
    table: [
      { capacitor_V: 1, current_mA: 20 },
      { capacitor_V: 2.5, current_mA: 8 },
    ],
  });
  const bare = settledPart('driver', driverSchema.parse({ kind: 'table' }));
  expect(bare.problems).toMatchObject([{ code: 'SCENARIO_MISSING_KEY', path: ['table'] }]);
});

it.each([
  ['more power out than in', { capacitor_V: 2, supply_mA: 5, led_mA: 10, led_V: 2.8 }, 'SCENARIO_CONFLICT'],
  [
    'supply current in A under mA',
    { capacitor_V: 2, supply_mA: 0.012, led_mA: 7.5, led_V: 2.8 },
    'SCENARIO_WRONG_UNIT',
  ],
  ['a row without a current', { capacitor_V: 2 }, 'FIT_UNDETERMINED'],
  ['a boost without the voltage of its LED', { capacitor_V: 2, supply_mA: 12 }, 'FIT_UNDETERMINED'],
] as const)('a driver with %s is refused', (_, row, code) => {
  const section = driverSchema.parse({ ...BOOST, readings: { rows: [row] } });
  const { result, problems } = settledPart('driver', section);
  expect(result).toBeUndefined();
  expect(problems.map((problem) => problem.code)).toEqual([code]);
});

it('a driver whose current does not follow its kind is refused, or its interval is widened', () => {
  const rows = [1, 1.5, 2, 2.5].map((capacitor_V) => ({ capacitor_V, supply_mA: 10 * capacitor_V ** 2 }));
  const section = driverSchema.parse({ kind: 'power', power_mW: 20, readings: { rows } });
  const problems: ValueProblem[] = [];
  const fit = driverFromReadings(section, section.readings!, (problem) => problems.push(problem));
  expect(fit).toBeUndefined();
  expect(problems[0]!.expected).toMatch(/one driver of kind power can show/);
});

const WHITE = [
  { current_mA: 5, forward_V: 2.7, efficacy_lm_W: 200 },
  { current_mA: 20, forward_V: 2.9, efficacy_lm_W: 170 },
];

it("an LED's efficacies follow the lux, scaled by the datasheet at the highest current that was read", () => {
  const section = ledSchema.parse({
    table: WHITE,
    readings: {
      background_lux: 1,
      points: [
        { current_mA: 2, forward_V: 2.6, lux: 1 + 2 * 2.6 * 180 },
        { current_mA: 20, forward_V: 2.88, lux: 1 + 20 * 2.88 * 150 },
      ],
    },
  });
  const { result, problems } = settledPart('led', section);
  expect(problems).toEqual([]);
  expect(result!.efficacy_lm_W[1]).toBeCloseTo(170, 6);
  expect(result!.efficacy_lm_W[0]).toBeCloseTo((170 * 180) / 150, 6);
  expect(result!.forward_V).toEqual([2.6, 2.88]);
});

it.each([
  [
    'less light at more current',
    [
      { current_mA: 2, forward_V: 2.6, lux: 100 },
      { current_mA: 20, forward_V: 2.9, lux: 90 },
    ],
    'SCENARIO_CONFLICT',
  ],
  [
    'currents in A under mA',
    [
      { current_mA: 0.002, forward_V: 2.6, lux: 10 },
      { current_mA: 0.02, forward_V: 2.9, lux: 90 },
    ],
    'SCENARIO_WRONG_UNIT',
  ],
] as const)('an LED with %s is refused', (_, points, code) => {
  const section = ledSchema.parse({ table: WHITE, readings: { points: [...points] } });
  const { result, problems } = settledPart('led', section);
  expect(result).toBeUndefined();
  expect(problems.map((problem) => problem.code)).toEqual([code]);
});

it('a jar read twice has the weighted mean of both rises', () => {
  const points = [
    { light_W_m2: 800, outside_degC: 20, inside_degC: 32 },
    { light_W_m2: 400, outside_degC: 20, inside_degC: 26 },
  ];
  expect(settledPart('jar', jarSchema.parse({ readings: { points } })).result!.rise_K_per_W_m2).toBeCloseTo(
    0.015,
    6,
  );
});
