import { exp } from '../common/elementary/exp.ts';
import type { DelayedBranch } from '../lamp/capacitor/delayedCharge.ts';

const HOUR_S = 3600;

/** What a branch takes over a step of one length: straight combinations of a current, a rise and a deviation. */
class StepConstants {
  /** Share of the current at the start that is left at the end. */
  left = 1;
  /** Charge per ampere at the start, per volt of rise, per volt of deviation. */
  alpha_s = 0;
  beta_F = 0;
  kappa_F = 0;
  /**
   * Per ampere by which the current at the start exceeds that of an even rise: charge ahead of an even flow at half time,
   * its integral over the step, and what the branch takes less per volt and farad that this lowers the capacitor.
   */
  half_s = 0;
  ahead_s2 = 0;
  own_Fs = 0;
  /**
   * Of the heat, which is a quadratic form of the current at the start and of a steady and a growing one, p and q: these
   * per volt of rise and of deviation, and the coefficients by what they belong to.
   */
  steadyRise_F_s = 0;
  steadyBend_F_s = 0;
  growing_F_s2 = 0;
  start_s = 0;
  startSteady_s = 0;
  startGrowing_s2 = 0;
  steady_s = 0;
  bothOf_s2 = 0;
  growing_s3 = 0;

  set(farad: number, ohm: number, h: number): void {
    if (farad === 0) return;
    const tau = farad * ohm;
    const leftAtHalf = exp((-0.5 * h) / tau);
    this.left = leftAtHalf * leftAtHalf;
    const once = 1 - this.left;
    const w = h - tau * once;
    const perH = 1 / h;
    this.alpha_s = tau * once;
    this.beta_F = farad * w * perH;
    this.kappa_F = farad * ((4 + 8 * tau * perH) * w * perH - 4);
    this.half_s = tau * (1 - leftAtHalf - 0.5 * once);
    this.ahead_s2 = tau * (w - 0.5 * h * once);
    this.own_Fs = farad * (tau * tau * once * once * perH - h * this.left);
    const settled_s = 0.5 * tau * (1 - this.left * this.left);
    this.growing_F_s2 = -8 * farad * perH * perH;
    this.steadyRise_F_s = farad * perH;
    this.steadyBend_F_s = 4 * farad * perH - tau * this.growing_F_s2;
    this.start_s = settled_s;
    this.startSteady_s = 2 * (tau * once - settled_s);
    this.startGrowing_s2 = 2 * tau * (tau - (h + tau) * this.left);
    this.steady_s = h + settled_s - 2 * tau * once;
    this.bothOf_s2 = h * h - this.startGrowing_s2;
    this.growing_s3 = h * h * h * (1 / 3);
  }
}

/** One branch: its state, and what it takes in the tried step. */
class Branch {
  readonly farad: number;
  readonly ohm: number;
  readonly perOhm: number;
  readonly perFarad: number;
  readonly hour = new StepConstants();
  readonly part = new StepConstants();
  now = this.hour;
  voltage_V = 0;
  /** Current into the branch at the step's start, amperes. */
  from_A = 0;
  /** Charge over the step; after `readEnergy` what of its energy is stored and what became heat in the resistance. */
  charge_C = 0;
  stored_J = 0;
  heat_J = 0;

  constructor({ capacitance_F, resistance_ohm }: DelayedBranch) {
    this.farad = capacitance_F;
    this.ohm = resistance_ohm;
    this.perOhm = capacitance_F > 0 ? 1 / resistance_ohm : 0;
    this.perFarad = capacitance_F > 0 ? 1 / capacitance_F : 0;
    this.hour.set(capacitance_F, resistance_ohm, HOUR_S);
  }

  /** Sets what the step stored and what became heat. in: rise_V and deviation_V of the capacitor over it */
  readEnergy({ rise_V, deviation_V }: DelayedBranches): void {
    if (this.farad === 0) return;
    const { now, from_A: start } = this;
    this.stored_J = this.charge_C * (this.voltage_V + 0.5 * this.charge_C * this.perFarad);
    const steady = now.steadyRise_F_s * rise_V + now.steadyBend_F_s * deviation_V;
    const growing = now.growing_F_s2 * deviation_V;
    this.heat_J =
      this.ohm *
      (start * (now.start_s * start + now.startSteady_s * steady + now.startGrowing_s2 * growing) +
        steady * (now.steady_s * steady + now.bothOf_s2 * growing) +
        now.growing_s3 * growing * growing);
  }
}

/**
 * The delayed branches of the capacitor over steps in which the capacitor's voltage is a parabola: exact, so that a branch
 * that settles in minutes takes steps of an hour. The charge each takes is a straight combination of its current at the
 * start, the rise of the voltage over the step, and the deviation of its middle from a straight line; the coefficients go
 * by the step's length only.
 *
 * Set main_V and step_s, then `begin`; then rise_V, then `spread`; then rise_V and deviation_V, then `take`, `accept`.
 * source: ZubietaBonert2000 (the branches)
 */
export class DelayedBranches {
  readonly exist: boolean;
  readonly one: Branch;
  readonly two: Branch;
  /** Capacitor's voltage at the step's start; the step's length, rise and deviation. */
  main_V = 0;
  step_s = HOUR_S;
  rise_V = 0;
  deviation_V = 0;

  /** After `begin`: mean current of what the branches take of a capacitor at rest; charge per volt that it rises. */
  base_A = 0;
  follow_F = 0;
  /** Charge per volt of deviation. */
  kappa_F = 0;
  /** After `readEnergy`: heat in the branches' resistances over the step, and energy stored in them, joules. */
  heat_J = 0;
  stored_J = 0;
  /**
   * After `spread`: charge drawn ahead of an even flow at half time, its integral over the step, and what is drawn less
   * because of it, times the farads that it lowers.
   */
  half_C = 0;
  ahead_Cs = 0;
  reaction_FC = 0;

  private perStep = 1 / HOUR_S;
  private constantsFor_s = HOUR_S;

  constructor([one, two]: readonly [DelayedBranch, DelayedBranch]) {
    this.one = new Branch(one);
    this.two = new Branch(two);
    this.exist = one.capacitance_F > 0 || two.capacitance_F > 0;
  }

  /** Puts all branches at one voltage. */
  restAt(voltage_V: number): void {
    this.one.voltage_V = voltage_V;
    this.two.voltage_V = voltage_V;
  }

  begin(): void {
    const { one, two, main_V, step_s: h } = this;
    if (h !== this.constantsFor_s) {
      this.constantsFor_s = h;
      this.perStep = 1 / h;
      const whole = h === HOUR_S;
      one.now = whole ? one.hour : one.part;
      two.now = whole ? two.hour : two.part;
      if (!whole) {
        one.part.set(one.farad, one.ohm, h);
        two.part.set(two.farad, two.ohm, h);
      }
    }
    one.from_A = (main_V - one.voltage_V) * one.perOhm;
    two.from_A = (main_V - two.voltage_V) * two.perOhm;
    this.base_A = (one.from_A * one.now.alpha_s + two.from_A * two.now.alpha_s) * this.perStep;
    this.follow_F = one.now.beta_F + two.now.beta_F;
    this.kappa_F = one.now.kappa_F + two.now.kappa_F;
  }

  /** Sets half_C, ahead_Cs and reaction_FC for the rise of the capacitor over the step. */
  spread(): void {
    const { one, two, perStep, rise_V } = this;
    const early1_A = one.from_A - one.farad * perStep * rise_V;
    const early2_A = two.from_A - two.farad * perStep * rise_V;
    const half1_C = one.now.half_s * early1_A;
    const half2_C = two.now.half_s * early2_A;
    this.half_C = half1_C + half2_C;
    this.ahead_Cs = one.now.ahead_s2 * early1_A + two.now.ahead_s2 * early2_A;
    this.reaction_FC =
      one.now.own_Fs * early1_A +
      two.now.own_Fs * early2_A +
      one.now.kappa_F * half2_C +
      two.now.kappa_F * half1_C;
  }

  /** Sets the charge of each branch. */
  take(): void {
    const { one, two, rise_V, deviation_V } = this;
    one.charge_C = one.now.alpha_s * one.from_A + one.now.beta_F * rise_V + one.now.kappa_F * deviation_V;
    two.charge_C = two.now.alpha_s * two.from_A + two.now.beta_F * rise_V + two.now.kappa_F * deviation_V;
  }

  accept(): void {
    this.one.voltage_V += this.one.charge_C * this.one.perFarad;
    this.two.voltage_V += this.two.charge_C * this.two.perFarad;
  }

  /** Charge of all branches, coulombs. */
  whole_C(): number {
    return this.one.farad * this.one.voltage_V + this.two.farad * this.two.voltage_V;
  }

  /** Sets heat_J and stored_J of all branches for the taken step. */
  readEnergy(): void {
    const { one, two } = this;
    one.readEnergy(this);
    two.readEnergy(this);
    this.heat_J = one.heat_J + two.heat_J;
    this.stored_J = one.stored_J + two.stored_J;
  }
}
