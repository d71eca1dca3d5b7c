import { quickExp } from '../common/quickExp.ts';
import type { DelayedBranch } from '../lamp/capacitor/params.ts';

/**
 * The current into one delayed branch over a step, the capacitor's voltage being a parabola over it: exact, so that a branch
 * that settles in minutes takes steps of an hour. `begin`, then `follow`; the results are fields.
 *
 * With V' = alpha + beta t the current is P + Q t + G exp(-t / tau), P = C (alpha - tau beta), Q = C beta.
 * source: ZubietaBonert2000 (the branch)
 */
export class DelayedCurrent {
  /** Charge into the branch over the step. */
  charge_C = 0;

  readonly exists: boolean;
  private readonly farad: number;
  private readonly ohm: number;
  private readonly tau_s: number;
  private from_A = 0;
  private h = 0;
  private left = 1;
  private perH = 0;
  private leftFor_s = Number.NaN;
  private steady_A = 0;
  private drift = 0;
  private gap_A = 0;

  constructor(branch: DelayedBranch) {
    this.exists = branch.capacitance_F > 0;
    this.farad = branch.capacitance_F;
    this.ohm = branch.resistance_ohm;
    this.tau_s = branch.capacitance_F * branch.resistance_ohm;
  }

  /** Starts a step. in: capacitor_V and branch_V at its start; duration_s */
  begin(capacitor_V: number, branch_V: number, duration_s: number): void {
    this.from_A = (capacitor_V - branch_V) / this.ohm;
    if (duration_s !== this.leftFor_s) {
      this.leftFor_s = duration_s;
      this.left = quickExp(-duration_s / this.tau_s);
      this.h = duration_s;
      this.perH = 1 / duration_s;
    }
  }

  /**
   * Follows the capacitor along a parabola.
   * in: rise_V over the step; midpointDeviation_V, how far its middle lies above the straight line
   * out: mean current over the step (at its start for a step of no length), and the field charge_C
   */
  follow(rise_V: number, midpointDeviation_V: number): number {
    const { h, perH, tau_s, farad } = this;
    if (h === 0) return this.from_A;
    const bend = -8 * midpointDeviation_V * perH * perH;
    const slope = (rise_V + 4 * midpointDeviation_V) * perH;
    this.drift = farad * bend;
    this.steady_A = farad * (slope - tau_s * bend);
    this.gap_A = this.from_A - this.steady_A;
    this.charge_C = h * (this.steady_A + 0.5 * h * this.drift) + this.gap_A * tau_s * (1 - this.left);
    return this.charge_C * perH;
  }

  /** Current at the end of the step. */
  end_A(): number {
    return this.h === 0 ? this.from_A : this.steady_A + this.h * this.drift + this.gap_A * this.left;
  }

  /** Rise of the branch's own voltage over the step. */
  rise_V(): number {
    return this.charge_C / this.farad;
  }

  /** Heat in the branch's resistance over the step, joules. */
  heat_J(): number {
    const { h, tau_s, steady_A: p, drift: q, gap_A: g, left } = this;
    return (
      this.ohm *
      (h * (p * p + h * q * (p + (h * q) / 3)) +
        0.5 * g * g * tau_s * (1 - left * left) +
        2 * g * tau_s * (p * (1 - left) + q * (tau_s - (h + tau_s) * left)))
    );
  }

  /** Integral over the step of the charge that runs ahead of the mean current, C s. */
  ahead_C_s(): number {
    const { h, tau_s, steady_A: p, drift: q, gap_A: g, left } = this;
    return h * h * (0.5 * p + (h * q) / 6) + g * tau_s * (h - tau_s * (1 - left)) - 0.5 * h * this.charge_C;
  }

  /** How far the branch bends the charge's path over the step, coulombs, about. */
  bent_C(): number {
    return Math.abs(this.from_A - this.charge_C / this.h) * Math.min(this.tau_s, this.h);
  }
}
