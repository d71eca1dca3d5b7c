import { exp } from '../../common/elementary/exp.ts';
import type { Report } from '../../common/InputProblem.ts';
import type { CapacitorSection } from './schema.ts';

/** A delayed branch of the bank: a resistance into a constant capacitance. */
export interface DelayedBranch {
  resistance_ohm: number;
  capacitance_F: number;
}

type Branches = readonly [DelayedBranch, DelayedBranch];

/** Most that a delayed branch holds, times the main capacitance; and least time by which it lags behind. */
const MOST_DELAYED_SHARE = 3;
const LEAST_LAG_S = 10;

/** A branch that is not there. */
export const NO_BRANCH: DelayedBranch = { resistance_ohm: 1, capacitance_F: 0 };

/** Delayed branches that are none: that hold more than the capacitor, or follow it at once. */
export function checkBranches(
  { capacitance_F: main_F, delayed_branches }: NonNullable<CapacitorSection['raw']>,
  report: Report,
): void {
  for (const [k, { capacitance_F, resistance_ohm }] of delayed_branches.entries()) {
    const below = ['raw', 'delayed_branches', k] as const;
    if (capacitance_F > MOST_DELAYED_SHARE * main_F) {
      report({
        code: 'SCENARIO_CONFLICT',
        path: [...below, 'capacitance_F'],
        got: `${capacitance_F} F beside the ${main_F} F of raw.capacitance_F`,
        expected: `at most ${MOST_DELAYED_SHARE} times as much as the main capacitance`,
        fix: 'is one of them in another unit? Most of the charge moves at once',
      });
    }
    const lag_s = resistance_ohm / (1 / main_F + 1 / capacitance_F);
    if (lag_s < LEAST_LAG_S) {
      report({
        code: 'SCENARIO_CONFLICT',
        path: [...below, 'resistance_ohm'],
        got: `${resistance_ohm} ohm, with which the branch follows in ${Number(lag_s.toPrecision(2))} s`,
        expected: `a branch that lags behind by ${LEAST_LAG_S} s or more`,
        fix: `a quicker one is part of the capacitor: add its ${capacitance_F} F to raw.capacitance_F`,
      });
    }
  }
}

/** The branches of a capacitor with so many times the capacitance; their time stays. */
export function scaledBranches([first, second]: Branches, times: number): Branches {
  const one = ({ resistance_ohm, capacitance_F }: DelayedBranch): DelayedBranch => ({
    resistance_ohm: resistance_ohm / times,
    capacitance_F: capacitance_F * times,
  });
  return [one(first), one(second)];
}

/**
 * The two delayed branches of a capacitor, ohms and farads: half of the delayed charge each, one ten times as fast.
 *
 * in: capacitance_F, rated; share, of it that is delayed, 0 for none; hours, time constant of the delayed branch
 */
export function delayedBranches(capacitance_F: number, share: number, hours: number): Branches {
  const each_F = (capacitance_F * share) / 2;
  const branch = (timeConstant_s: number): DelayedBranch =>
    each_F === 0 ? NO_BRANCH : { resistance_ohm: timeConstant_s / each_F, capacitance_F: each_F };
  return [branch(hours * 360), branch(hours * 3600)];
}

/**
 * Current that the delayed branches still take after some time at a voltage, amperes.
 *
 * in: delayed; voltage_V held; rest_h, hours at it, above 0
 */
export function absorbedCurrent_A(delayed: Branches, voltage_V: number, rest_h: number): number {
  const still_A = ({ resistance_ohm, capacitance_F }: DelayedBranch) =>
    (voltage_V / resistance_ohm) * exp((-rest_h * 3600) / (resistance_ohm * capacitance_F));
  return still_A(delayed[0]) + still_A(delayed[1]);
}
