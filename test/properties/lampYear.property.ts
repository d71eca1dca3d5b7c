import fc from 'fast-check';
import { expect } from 'vitest';
import { simulateYear, type YearResult } from '../../sim/year/simulateYear.ts';
import { YEAR_COLUMNS } from '../../sim/year/YearColumns.ts';
import { type LampInput, makeLamp, RAW_CELL, RAW_LED } from '../lamp/makeLamp.ts';
import { BALANCE } from '../year/balance.ts';
import { dummyLight } from '../year/dummyLight.ts';
import type { Property } from './Property.ts';

const HOURS = 72;
/** A number between two, on a grid of a thousand. */
const number = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1000 }).map((k) => min + ((max - min) * k) / 1000);

const driver: fc.Arbitrary<LampInput['driver']> = fc
  .record({
    kind: fc.constantFrom('power', 'current', 'conductance', 'boost', 'table'),
    size: number(0.2, 3),
    cutoff_V: number(0.5, 1.2),
    gap_V: number(0.15, 0.4),
    standby_uA: number(0, 200),
    restart_needs: fc.constantFrom('voltage', 'dusk'),
    cutoff_watches: fc.constantFrom('always', 'while-lit'),
    efficiency: number(0.5, 1),
  })
  .map(({ kind, size, cutoff_V, gap_V, ...rest }) => {
    const shared = { ...rest, cutoff_V, restart_V: cutoff_V + gap_V, below_cutoff_uA: rest.standby_uA / 2 };
    switch (kind) {
      case 'power':
        return { kind, power_mW: 15 * size, ...shared };
      case 'current':
        return { kind, current_mA: 10 * size, ...shared };
      case 'conductance':
        return { kind, conductance_mS: 6 * size, ...shared };
      case 'table': {
        const table = [0.5, 1.1, 1.6, 2.3].map((capacitor_V, i) => ({
          capacitor_V,
          current_mA: size * (2 + 3 * i),
        }));
        return { kind, table, ...shared };
      }
      default:
        return {
          kind: 'boost',
          inductance_uH: 800 / size,
          frequency_kHz: 8,
          duty: 0.2,
          current_limit_mA: 40,
          ...shared,
        };
    }
  });

const diode: fc.Arbitrary<LampInput['diode']> = fc.constantFrom(
  { forward_drop: [{ current_mA: 10, drop_V: 0.2 }] },
  { raw: { saturation_A: 2e-5, ideality: 1.1, series_ohm: 0.1 }, reverse_leakage_uA: 50 },
  { switch_on_ohm: 0.1 },
  { raw: { saturation_A: 1e-9, ideality: 1.8 }, barrier_eV: 1.11 },
);

const capacitor: fc.Arbitrary<LampInput['capacitor']> = fc.record({
  capacitance_F: number(20, 1000),
  rated_V: fc.constant(2.7),
  esr_mohm: number(0, 200),
  capacitance_rise: number(0, 0.8),
  delayed_share: number(0, 0.2),
  leakage_uA: number(100, 5000),
});

const led: fc.Arbitrary<LampInput['led']> = fc.constantFrom<LampInput['led']>(RAW_LED, {
  table: [
    { current_mA: 1, forward_V: 2.8, efficacy_lm_W: 150 },
    { current_mA: 10, forward_V: 2.95, efficacy_lm_W: 190 },
    { current_mA: 40, forward_V: 3.2, efficacy_lm_W: 140 },
  ],
});

const cell: fc.Arbitrary<LampInput['cell']> = fc.record({
  raw: fc.record({
    photocurrent_A: number(0.05, 1),
    saturation_A: fc.constant(2e-9),
    ideality: fc.constant(1.2),
    series_ohm: number(0, 0.5),
    shunt_ohm: number(80, 5000),
  }),
  cells_in_series: fc.constant(4),
});

const schedule: fc.Arbitrary<LampInput['schedule']> = fc.constantFrom<LampInput['schedule']>(
  { on: 'dusk', hours: 8 },
  { on: 'dusk', until: 'dawn' },
  { on: '16:30', until: '23:15' },
  { on: 'dusk', hours: 4, before_dawn_h: 2, on_share: 0.7, dim: [{ after_h: 1.5, light_share: 0.3 }] },
  { on: 'dusk', hours: 7, motion: { triggers_per_h: 4, shines_s: 120 } },
);

const lampInput = fc.record({ cell, diode, capacitor, driver, led, jar: fc.constant({}), schedule });

/** Blocks of sky of some hours each, dark by night. */
const weather = fc
  .array(number(0, 1000), { minLength: 12, maxLength: 12 })
  .map((blocks) =>
    Array.from({ length: HOURS }, (_, i) => (i % 24 < 6 || i % 24 >= 18 ? 0 : blocks[Math.floor(i / 6)]!)),
  );

function run(input: LampInput, light: readonly number[], start_V: number, air_degC: number): YearResult {
  return simulateYear(makeLamp(input), dummyLight('2026-01-10T00:00:00Z', light, air_degC), {
    timeZone: 'UTC',
    promise: { from: 'dusk', hours: 7, least_lumen: 0.4, tolerance_h: 0.25 },
    start: { capacitor_V: start_V },
  });
}

// A switch opens and closes at corners that the time step smooths by a few millivolts: junctions only.
const quiet = (input: LampInput): LampInput => ({
  ...input,
  diode: 'switch_on_ohm' in input.diode ? { forward_drop: [{ current_mA: 10, drop_V: 0.25 }] } : input.diode,
  // A stopped driver that drew less would let an emptier capacitor overtake a fuller one.
  driver: { ...input.driver, below_cutoff_uA: input.driver.standby_uA },
  schedule: { on: '23:59', hours: 1e-9 },
});

export const LAMP_YEAR: readonly Property[] = [
  {
    title: 'any lamp in any weather keeps charge, energy, time and voltage in order',
    runs: 200,
    check: (numRuns) => {
      fc.assert(
        fc.property(
          lampInput,
          weather,
          number(0.02, 2.6),
          number(-15, 35),
          (input, light, start_V, air_degC) => {
            const { columns, nights, chargeResidual, energyResidual } = run(input, light, start_V, air_degC);
            for (const name of YEAR_COLUMNS) {
              expect(columns[name].findIndex(Number.isNaN), name).toBe(-1);
            }
            expect(chargeResidual).toBeLessThan(1e-9);
            // Capacitors of 20 F emptied within minutes, and switches that open inside an hour; lamps as they are built
            // close to 1e-4 (chargingDay).
            expect(energyResidual).toBeLessThan('switch_on_ohm' in input.diode ? 2e-2 : 4e-3);
            for (let i = 0; i < HOURS; i++) {
              const sum = BALANCE.reduce((total, name) => total + columns[name][i]!, 0);
              expect(Math.abs(columns.cell_J[i]! - sum)).toBeLessThan(
                1e-9 * (1 + Math.abs(columns.cell_J[i]!)),
              );
              expect(columns.capacitorEnd_V[i]).toBeGreaterThanOrEqual(0);
              expect(columns.capacitorEnd_V[i]).toBeLessThan(3);
              expect(columns.capacitorLowest_V[i]).toBeLessThanOrEqual(columns.capacitorEnd_V[i]! + 1e-12);
              expect(columns.promised_s[i]).toBeCloseTo(columns.lit_s[i]! + columns.short_s[i]!, 6);
              expect(columns.promised_s[i]).toBeLessThanOrEqual(3600 + 1e-6);
              // No cell gives more than its best point.
              expect(columns.cell_J[i]).toBeLessThanOrEqual(columns.cellBest_J[i]! * (1 + 1e-4) + 1e-3);
              const unharvested = columns.unharvestedLow_J[i]! + columns.unharvestedHigh_J[i]!;
              if (light[i]! > 0)
                expect(unharvested).toBeCloseTo(columns.cellBest_J[i]! - columns.cell_J[i]!, 6);
            }
            for (let n = 0; n < nights.count; n++) {
              const short_s = nights.shortBy_s.reduce((total, column) => total + column[n]!, 0);
              expect(nights.lit_s[n]! + short_s).toBeCloseTo(nights.promised_s[n]!, 5);
            }
          },
        ),
        { seed: 20260101, numRuns },
      );
    },
  },
  {
    title: 'a lamp that is never lit ends no lower with more light, and no lower from a fuller start',
    runs: 60,
    check: (numRuns) => {
      fc.assert(
        fc.property(
          lampInput,
          weather,
          number(0.1, 2),
          number(1, 3),
          number(0, 0.5),
          (input, light, start_V, more, fuller_V) => {
            const lamp = quiet(input);
            const fixed = { ...lamp, jar: { fixed_degC: 10 } };
            const plain = run(fixed, light, start_V, 10).columns.capacitorEnd_V;
            const brighter = run(
              fixed,
              light.map((w) => Math.min(1000, w * more)),
              start_V,
              10,
            ).columns.capacitorEnd_V;
            const higher = run(fixed, light, start_V + fuller_V, 10).columns.capacitorEnd_V;
            for (let i = 0; i < HOURS; i++) {
              // The step's own error.
              expect(brighter[i]).toBeGreaterThan(plain[i]! - 2e-3);
              expect(higher[i]).toBeGreaterThan(plain[i]! - 2e-3);
            }
          },
        ),
        { seed: 20260102, numRuns },
      );
    },
  },
  {
    title:
      'two of everything behave like one: cells, diode, capacitor and draw doubled leave the voltage alone',
    runs: 40,
    check: (numRuns) => {
      fc.assert(
        fc.property(
          capacitor,
          weather,
          number(0.8, 2),
          number(2, 30),
          (section, light, start_V, power_mW) => {
            const of = (times: number): LampInput => ({
              cell: { ...RAW_CELL, parallel: times },
              diode: { raw: { saturation_A: 5e-6 * times, ideality: 1.05, series_ohm: 0.1 / times } },
              capacitor: { ...section, parallel: times },
              driver: {
                kind: 'power',
                power_mW: power_mW * times,
                cutoff_V: 0.7,
                restart_V: 1.1,
                standby_uA: 5 * times,
                below_cutoff_uA: 2 * times,
              },
              led: { ...RAW_LED, count: times },
              jar: {},
              schedule: { on: 'dusk', hours: 6 },
            });
            const one = run(of(1), light, start_V, 10).columns.capacitorEnd_V;
            const two = run(of(2), light, start_V, 10).columns.capacitorEnd_V;
            for (let i = 0; i < HOURS; i++) expect(two[i]).toBeCloseTo(one[i]!, 6);
          },
        ),
        { seed: 20260103, numRuns },
      );
    },
  },
];
