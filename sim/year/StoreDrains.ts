import { quickExp } from '../common/quickExp.ts';
import type { LampParams } from '../lamp/params.ts';
import { leakageWarming } from '../lamp/store/step.ts';
import type { Expansion } from './Expansion.ts';

/** What draws from the store's inner voltage besides the driver: leakage, balancing, limiter, standby. */
export class StoreDrains {
  private readonly lamp: LampParams;
  private readonly exponential: boolean;
  private readonly perFold: number;
  private readonly leakScale_A: number;
  private readonly balancing_S: number;
  private readonly limiter_V: number;
  private readonly limiter_S: number;
  private readonly floor_V: number;
  /** Scale of the leakage at the present temperature. */
  private leakNow_A = 0;
  private standby_A = 0;
  /** The leakage's exponential, and the voltage it was taken at. */
  private grown_A = 0;
  private grownAt_V = Number.NEGATIVE_INFINITY;

  constructor(lamp: LampParams) {
    const { store, driver } = lamp;
    this.lamp = lamp;
    this.perFold = 1 / store.leakageFold_V;
    this.exponential = Number.isFinite(store.leakageFold_V);
    this.leakScale_A = this.exponential
      ? store.leakage_A / Math.expm1(store.rated_V / store.leakageFold_V)
      : store.leakage_A / store.rated_V;
    this.balancing_S = store.balancing_S;
    this.limiter_V = store.limiter_V;
    this.limiter_S = 1 / store.limiter_ohm;
    this.floor_V = driver.floor_V;
  }

  setTemperature(temperature_degC: number): void {
    this.leakNow_A = this.leakScale_A * leakageWarming(this.lamp.store, temperature_degC);
    this.grownAt_V = Number.NEGATIVE_INFINITY;
  }

  /** Sets what the driver draws while the LED is off; it falls with the voltage below the floor. */
  setStandby(standby_A: number): void {
    this.standby_A = standby_A;
  }

  /** Leakage current at an inner voltage, amperes. */
  leakage_A(main_V: number): number {
    return this.exponential
      ? this.leakNow_A * (quickExp(main_V * this.perFold) - 1)
      : this.leakNow_A * main_V;
  }

  /** Sets the drains of an expansion about an inner voltage. */
  expand(at: Expansion, main_V: number): void {
    if (this.exponential) {
      // One exponential a step; while the voltages are near, the series serves.
      const away = (main_V - this.grownAt_V) * this.perFold;
      if (away < 0.1 && away > -0.1) this.grown_A *= 1 + away * (1 + away * (0.5 + away * (1 / 6)));
      else this.grown_A = this.leakNow_A * quickExp(main_V * this.perFold);
      this.grownAt_V = main_V;
      at.leak_A = this.grown_A - this.leakNow_A;
      at.leakSlope = this.grown_A * this.perFold;
      at.leakHalf = 0.5 * at.leakSlope * this.perFold;
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
    const below = main_V < this.floor_V;
    at.standby_A = below ? (this.standby_A * main_V) / this.floor_V : this.standby_A;
    at.standbySlope = below ? this.standby_A / this.floor_V : 0;
  }
}
