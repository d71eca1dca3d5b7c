import type { z } from 'zod';
import type { ValueProblem } from '../../sim/common/InputProblem.ts';
import type { LampParams, PartParams } from '../../sim/lamp/params.ts';
import { type LampSection, lampSchema } from '../../sim/lamp/schema.ts';
import { type SettledLamp, settleLamp, settleParts } from '../../sim/lamp/settleLamp.ts';

export type LampInput = z.input<typeof lampSchema>;

/** Problems about a lamp as the scenario gives it. */
export function problemsOf(input: LampInput): ValueProblem[] {
  const problems: ValueProblem[] = [];
  settleLamp(lampSchema.parse(input), (problem) => problems.push(problem));
  return problems;
}

/** A lamp with its readings settled; throws where its parts draw a problem. */
export function makeSettled(input: LampInput): SettledLamp {
  const problems: ValueProblem[] = [];
  const lamp = settleLamp(lampSchema.parse(input), (problem) => problems.push(problem));
  if (lamp === undefined || problems.length > 0) throw new Error(JSON.stringify(problems));
  return lamp;
}

/** A lamp ready to run; throws where its parts draw a problem. */
export function makeLamp(input: LampInput): LampParams {
  return makeSettled(input).params;
}

/** A four-junction cell of 2.45 V, by its model parameters. */
export const RAW_CELL = {
  raw: { photocurrent_A: 0.5, saturation_A: 2e-8, ideality: 1.4, series_ohm: 0.15, shunt_ohm: 400 },
  cells_in_series: 4,
} as const satisfies LampInput['cell'];

/** A small Schottky diode by its model parameters. */
export const RAW_DIODE = {
  raw: { saturation_A: 5e-6, ideality: 1.05, series_ohm: 0.05 },
} as const satisfies LampInput['diode'];

/** An ideal capacitor: a capacitance and nothing else. */
export function idealCapacitor(capacitance_F: number, series_ohm = 0): LampInput['capacitor'] {
  return { raw: { capacitance_F, series_ohm }, rated_V: 2.7 };
}

/** An LED of 3 V and 150 lm/W at every current. */
export const RAW_LED = { raw: { forward_V: 3, efficacy_lm_W: 150 } } as const satisfies LampInput['led'];

/** The parts around a driver under test: nothing draws but the driver, nothing comes in from a dark cell. */
export function idealLamp(
  driver: LampInput['driver'],
  capacitor: LampInput['capacitor'],
  schedule: LampInput['schedule'] = { on: 'dusk', until: 'dawn' },
): LampParams {
  return makeLamp({
    cell: RAW_CELL,
    diode: { switch_on_ohm: 0.01 },
    capacitor,
    driver: { standby_uA: 0, below_cutoff_uA: 0, ...driver },
    led: RAW_LED,
    jar: { fixed_degC: 25 },
    schedule,
  });
}

/** Parameters of one part with its readings settled, and the problems with paths below it. */
export function settledPart<Part extends keyof PartParams>(part: Part, section: LampSection[Part]) {
  const problems: ValueProblem[] = [];
  const { parts } = settleParts({ [part]: section }, ({ path, ...problem }) =>
    problems.push({ ...problem, path: path.slice(1) }),
  );
  return { result: parts[part], problems };
}
