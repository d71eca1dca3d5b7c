import { describe, expect, it } from 'vitest';
import { randomStream } from '../../sim/common/random.ts';
import { PARTS } from '../../sim/scenario/parts.ts';
import { circuitHours } from '../../sim/year/circuitHours.ts';
import { LampStepper } from '../../sim/year/LampStepper.ts';
import { DEFAULT_TOLERANCE_V } from '../../sim/year/simulateYear.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp } from './days.ts';
import { type Branches, OutsideCircuit } from './OutsideCircuit.ts';
import { odexSolver } from './odexSolver.ts';

const { values } = PARTS.capacitor['medium-capacitor']!;
const SMALL = { capacitance_F: 60, rated_V: 2.7, esr_mohm: 100, leakage_uA: 120, leakage_rest_h: 72 };
/**
 * A cell of the test's own: the worst of a few hundred hours moves with its curve. Over fifteen seeds, with this cell or
 * the library's, three steps in a thousand of a lit lamp in the light are off by more than 3 mV, the worst by 5.5 mV.
 */
const CELL = {
  raw: {
    photocurrent_A: 0.500348,
    saturation_A: 1.32e-8,
    ideality: 1.368,
    series_ohm: 0.279,
    shunt_ohm: 400,
  },
  cells_in_series: 4,
};
const LAMPS: Record<string, Partial<LampInput>> = {
  "the library's": {},
  'one without delayed branches': { capacitor: { ...values, delayed_share: 0 } },
  'one of 60 F': { capacitor: SMALL },
  'one of constant power': { driver: { kind: 'power', power_mW: 25 } },
};
const HOURS = 400;

/** How far steps of an hour from random states are off, and what they say of it. */
function steps(changes: Partial<LampInput>, mode: 'charging' | 'lit' | 'both' | 'rest') {
  const lamp = makeLamp(libraryLamp({ cell: CELL, ...changes }));
  const stepper = new LampStepper(lamp);
  const circuit = new OutsideCircuit(lamp);
  const solver = odexSolver(3, 1e-10);
  const random = randomStream(7, `steps ${mode}`);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  stepper.tolerance_V = DEFAULT_TOLERANCE_V;
  const found: { taken: boolean; told_V: number; true_V: number }[] = [];
  for (let tried = 0; tried < HOURS; tried++) {
    const light = mode === 'charging' || mode === 'both' ? 400 * random.uniform() ** 2 + 1 : 0;
    const degC = between(-5, 35);
    const main_V = between(1, 2.15);
    const state: Branches = [main_V, main_V + between(-0.02, 0.02), main_V + between(-0.15, 0.15)];
    stepper.restAt(main_V);
    stepper.delayed.one.voltage_V = lamp.capacitor.delayed[0].capacitance_F > 0 ? state[1] : main_V;
    stepper.delayed.two.voltage_V = lamp.capacitor.delayed[1].capacitance_F > 0 ? state[2] : main_V;
    stepper.setHour(circuitHours(lamp, [light], [degC]), 0);
    const on = mode === 'lit' || mode === 'both' ? 1 : 0;
    stepper.setDuty(on, on);
    stepper.settle();
    stepper.step_s = 3600;
    Object.assign(circuit, { duty: on, glow: on });
    circuit.conditions(light, degC);
    circuit.beyond = false;
    const taken = stepper.tryStep();
    if (!Number.isFinite(stepper.error_V) || stepper.end_V < 0.9 || stepper.terminal_V > circuit.boundary_V)
      continue;
    solver.initialStepSize = 1;
    const { y } = solver.solve((_, at) => circuit.rates(at as Branches), 0, state, 3600);
    found.push({ taken, told_V: stepper.error_V, true_V: Math.abs(stepper.end_V - y[0]!) });
  }
  return found;
}

const CASES = Object.entries(LAMPS).flatMap(([name, changes]) =>
  (['charging', 'lit', 'both', 'rest'] as const)
    // Lit, 60 F are empty before an hour is over.
    .filter((mode) => !(name === 'one of 60 F' && mode === 'lit'))
    .map((mode) => ({ name, mode, changes })),
);

describe.each(CASES)('hours of $name lamp at random, $mode', ({ mode, changes }) => {
  const found = steps(changes, mode);
  const taken = found.filter((step) => step.taken);

  it('are taken in one step with an error below the tolerance in nine of ten, below 3 mV in all', () => {
    expect(taken.length).toBeGreaterThan(30);
    // Measured: at least 0.916, at most 2.1 mV.
    const kept = taken.filter(({ true_V }) => true_V <= DEFAULT_TOLERANCE_V);
    expect(kept.length / taken.length).toBeGreaterThan(0.9);
    expect(Math.max(...taken.map(({ true_V }) => true_V))).toBeLessThan(3e-3);
  });

  it('tell an error that is right to a factor in the median, where there is one to tell', () => {
    // Ten microvolts are below what any tolerance in use asks for. Measured: from 0.27 to 4.8 of the true error.
    const ratios = found.filter(({ true_V }) => true_V > 1e-5).map(({ told_V, true_V }) => told_V / true_V);
    if (ratios.length < 10) return;
    const median = ratios.sort((a, b) => a - b)[ratios.length >> 1]!;
    expect(median).toBeGreaterThan(0.2);
    // What a lit step tells is large on purpose: the energy of the hour closes by it.
    expect(median).toBeLessThan(40);
  });
});
