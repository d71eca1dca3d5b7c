/** A delayed branch of the bank: a resistance into a constant capacitance. */
export interface DelayedBranch {
  resistance_ohm: number;
  capacitance_F: number;
}

/** A branch that is not there. */
export const NO_BRANCH: DelayedBranch = { resistance_ohm: 1, capacitance_F: 0 };

/**
 * The two delayed branches of a capacitor, ohms and farads: half of the delayed charge each, one ten times as fast.
 *
 * in: capacitance_F, rated; share, of it that is delayed, 0 for none; hours, time constant of the delayed branch
 */
export function delayedBranches(
  capacitance_F: number,
  share: number,
  hours: number,
): [DelayedBranch, DelayedBranch] {
  const each_F = (capacitance_F * share) / 2;
  const branch = (timeConstant_s: number): DelayedBranch =>
    each_F === 0 ? NO_BRANCH : { resistance_ohm: timeConstant_s / each_F, capacitance_F: each_F };
  return [branch(hours * 360), branch(hours * 3600)];
}

/**
 * Current that the delayed branches still take after some time at a voltage, amperes.
 *
 * in: delayed; voltage_V held; rest_h, hours at it
 */
export function absorbedCurrent_A(
  delayed: readonly [DelayedBranch, DelayedBranch],
  voltage_V: number,
  rest_h: number,
): number {
  let absorbed_A = 0;
  for (const { resistance_ohm, capacitance_F } of delayed) {
    if (capacitance_F === 0) continue;
    absorbed_A +=
      (voltage_V / resistance_ohm) * Math.exp((-rest_h * 3600) / (resistance_ohm * capacitance_F));
  }
  return absorbed_A;
}
