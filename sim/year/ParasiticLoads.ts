import { expm1 } from '../common/elementary/exp.ts';
import { quickExp } from '../common/quickExp.ts';
import type { LampParams } from '../lamp/params.ts';

/**
 * What draws from the capacitor's inner voltage besides the driver: leakage, balancing resistors, limiter, standby.
 * Set `main_V`, `warming`, `standby_A` and `limiting`, then `read`; the results are fields.
 */
export class ParasiticLoads {
  /** The inner voltage. */
  main_V = 0;
  /** Factor of the leakage at the present temperature. */
  warming = 1;
  /** What the driver draws while the LED is off; it falls with the voltage below the cut-off. */
  standby_A = 0;
  /** The limiter draws: the capacitor stands above its voltage. */
  limiting = false;

  leak_A = 0;
  leakSlope = 0;
  leakSecond = 0;
  leakThird = 0;
  /** Balancing and limiter. */
  bleed_A = 0;
  bleedSlope = 0;
  standbyNow_A = 0;
  standbySlope = 0;
  /** All of it. */
  drawn_A = 0;
  drawnSlope = 0;

  readonly limiter_V: number;
  private readonly perEFold: number;
  private readonly scale_A: number;
  private readonly balancing_S: number;
  private readonly limiter_S: number;
  private readonly cutoff_V: number;

  constructor({ capacitor, driver }: LampParams) {
    const exponential = Number.isFinite(capacitor.leakageEFold_V);
    this.perEFold = exponential ? 1 / capacitor.leakageEFold_V : 0;
    this.scale_A = exponential
      ? capacitor.leakage_A / expm1(capacitor.rated_V / capacitor.leakageEFold_V)
      : capacitor.leakage_A / capacitor.rated_V;
    this.balancing_S = capacitor.balancing_S;
    this.limiter_V = capacitor.limiter_V;
    this.limiter_S = 1 / capacitor.limiter_ohm;
    this.cutoff_V = driver.cutoff_V;
  }

  /** Sets all currents and their derivatives. */
  read(): void {
    const { perEFold, main_V } = this;
    const scale_A = this.scale_A * this.warming;
    if (perEFold > 0) {
      const grown_A = scale_A * quickExp(main_V * perEFold);
      this.leak_A = grown_A - scale_A;
      this.leakSlope = grown_A * perEFold;
      this.leakSecond = this.leakSlope * perEFold;
      this.leakThird = this.leakSecond * perEFold;
    } else {
      this.leak_A = scale_A * main_V;
      this.leakSlope = scale_A;
    }
    this.bleed_A = this.balancing_S * main_V;
    this.bleedSlope = this.balancing_S;
    if (this.limiting) {
      this.bleed_A += (main_V - this.limiter_V) * this.limiter_S;
      this.bleedSlope += this.limiter_S;
    }
    this.standbySlope = main_V < this.cutoff_V ? this.standby_A / this.cutoff_V : 0;
    this.standbyNow_A = main_V < this.cutoff_V ? this.standbySlope * main_V : this.standby_A;
    this.drawn_A = this.leak_A + this.bleed_A + this.standbyNow_A;
    this.drawnSlope = this.leakSlope + this.bleedSlope + this.standbySlope;
  }
}
