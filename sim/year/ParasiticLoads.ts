import { quickExp } from '../common/quickExp.ts';
import { leakageScale_A, leakageWarming } from '../lamp/capacitor/step.ts';
import type { LampParams } from '../lamp/params.ts';
import type { Expansion } from './Expansion.ts';

/** What draws from the capacitor's inner voltage besides the driver: leakage, balancing, limiter, standby. */
export class ParasiticLoads {
  private readonly lamp: LampParams;
  private readonly exponential: boolean;
  private readonly perEFold: number;
  private readonly leakScale_A: number;
  private readonly balancing_S: number;
  private readonly limiter_V: number;
  private readonly limiter_S: number;
  private readonly cutoff_V: number;
  /** Scale of the leakage at the present temperature. */
  private leakNow_A = 0;
  private standby_A = 0;
  /** The leakage's exponential, and the voltage it was taken at. */
  private grown_A = 0;
  private grownAt_V = Number.NEGATIVE_INFINITY;

  constructor(lamp: LampParams) {
    const { capacitor, driver } = lamp;
    this.lamp = lamp;
    this.perEFold = 1 / capacitor.leakageEFold_V;
    this.exponential = Number.isFinite(capacitor.leakageEFold_V);
    this.leakScale_A = leakageScale_A(capacitor);
    this.balancing_S = capacitor.balancing_S;
    this.limiter_V = capacitor.limiter_V;
    this.limiter_S = 1 / capacitor.limiter_ohm;
    this.cutoff_V = driver.cutoff_V;
  }

  setTemperature(temperature_degC: number): void {
    this.leakNow_A = this.leakScale_A * leakageWarming(this.lamp.capacitor, temperature_degC);
    this.grownAt_V = Number.NEGATIVE_INFINITY;
  }

  /** Sets what the driver draws while the LED is off; it falls with the voltage below the cut-off. */
  setStandby(standby_A: number): void {
    this.standby_A = standby_A;
  }

  /** Leakage current at an inner voltage, amperes. */
  leakage_A(main_V: number): number {
    return this.exponential
      ? this.leakNow_A * (quickExp(main_V * this.perEFold) - 1)
      : this.leakNow_A * main_V;
  }

  /** Sets the drains of an expansion about an inner voltage. */
  expand(at: Expansion, main_V: number): void {
    if (this.exponential) {
      // One exponential a step; while the voltages are near, the series serves.
      const away = (main_V - this.grownAt_V) * this.perEFold;
      if (away < 0.1 && away > -0.1) this.grown_A *= 1 + away * (1 + away * (0.5 + away * (1 / 6)));
      else this.grown_A = this.leakNow_A * quickExp(main_V * this.perEFold);
      this.grownAt_V = main_V;
      at.leak_A = this.grown_A - this.leakNow_A;
      at.leakSlope = this.grown_A * this.perEFold;
      at.leakHalf = 0.5 * at.leakSlope * this.perEFold;
    } else {
      at.leak_A = this.leakNow_A * main_V;
      at.leakSlope = this.leakNow_A;
      at.leakHalf = 0;
    }
    at.bleed_A = this.balancing_S * main_V;
    at.bleedSlope = this.balancing_S;
    if (main_V > this.limiter_V) {
      at.bleed_A += (main_V - this.limiter_V) * this.limiter_S;
      at.bleedSlope += this.limiter_S;
    }
    const below = main_V < this.cutoff_V;
    at.standby_A = below ? (this.standby_A * main_V) / this.cutoff_V : this.standby_A;
    at.standbySlope = below ? this.standby_A / this.cutoff_V : 0;
  }
}
