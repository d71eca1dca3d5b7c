import { quickExp } from '../common/quickExp.ts';
import { quickLog1p } from '../common/quickLog.ts';

/** While both ways of bending are this small over a step, the power series serves. */
const SHORT = 0.3;
const SHORT_BEND = 0.05;
/** A rate that bends on less than this many volts is no exponential: it is followed as a parabola. */
const LEAST_FOLD_V = 1 / 60;

/**
 * The path of a voltage whose rate is known at one point with its slope and second derivative.
 *
 * The rate is taken as r + (p / g) (e^(g x) - 1), g = q / p, x being the way from the point: exact for a straight
 * relaxation, for the knee of a diode or a cell and for the creep that follows it. With w = e^(-g x) the equation is
 * linear, w' = -(g r0 - p0) w - p0 from the start on, hence the closed form. Short ways use the power series of the rate
 * to its third derivative.
 *
 * Set the fields, then `follow`. Derived here: a Riccati equation in disguise.
 */
export class VoltagePath {
  /** At the point of expansion: rate in V/s, slope in 1/s, second and third derivative in 1/(V s) and 1/(V2 s). */
  rate = 0;
  slope = 0;
  second = 0;
  third = 0;
  /** Start of the path less the point of expansion. */
  from_V = 0;
  duration_s = 0;

  /** Rise of the voltage over the step. */
  rise_V = 0;
  /** How far the path's middle in time lies above the straight line between its ends. */
  deviation_V = 0;
  /** Rates at both ends. */
  startRate = 0;
  endRate = 0;
  /** What of the third derivative the taken form leaves out. */
  missed = 0;

  /** out: false where the form runs away within the step */
  follow(): boolean {
    const { rate, slope, second, third, from_V: x, duration_s: h } = this;
    const start = rate + x * (slope + x * (0.5 * second + x * third * (1 / 6)));
    const z = (slope + x * (second + 0.5 * x * third)) * h;
    const zz = (second + x * third) * start * h * h;
    const zzz = third * start * start * h * h * h;
    const short = z < SHORT && z > -SHORT && zz < SHORT_BEND && zz > -SHORT_BEND;
    if (!(short && zzz < SHORT_BEND && zzz > -SHORT_BEND)) return this.followForm();
    const z2 = z * z;
    const t3 = (z2 + zz) * (1 / 6);
    const t4 = (z * (z2 + 4 * zz) + zzz) * (1 / 24);
    const t5 = (z2 * (z2 + 11 * zz) + 4 * zz * zz + 7 * z * zzz) * (1 / 120);
    const t6 = z * (z2 * (z2 + 26 * zz) + 34 * zz * zz) * (1 / 720);
    const straight_V = start * h;
    this.missed = 0;
    this.startRate = start;
    this.rise_V = straight_V * (1 + 0.5 * z + t3 + (t4 + t5 + t6));
    this.deviation_V = -0.125 * straight_V * (z + 3 * t3 + (3.5 * t4 + 3.75 * t5 + 3.875 * t6));
    this.endRate = start * (1 + z + 3 * t3 + 4 * t4 + 5 * t5 + 6 * t6);
    return true;
  }

  private followForm(): boolean {
    const { rate, slope, second, from_V, duration_s: h } = this;
    const fold_V = second * LEAST_FOLD_V;
    if (slope === 0 || !(fold_V < Math.abs(slope) && -fold_V < Math.abs(slope))) return false;
    const perFold = second / slope;
    this.missed = this.third - second * perFold;
    const away = perFold * from_V;
    const near = away < 1e-3 && away > -1e-3;
    const grown = near ? 0 : growthOver(away);
    const start = near
      ? rate + from_V * (slope + 0.5 * second * from_V)
      : rate + grown * slope * (slope / second);
    const decay = perFold * start - (near ? slope + second * from_V : slope * (1 + grown));
    const left = quickExp(-0.5 * h * decay);
    if (!(left < 1e6)) return false;
    const slow = decay * h < 1e-4 && decay * h > -1e-4;
    const half_s = slow ? 0.5 * h * (1 - 0.25 * decay * h) : (1 - left) / decay;
    const whole_s = half_s * (1 + left);
    this.startRate = start;
    if (perFold < 1e-6 && perFold > -1e-6) {
      this.rise_V = start * whole_s;
      this.deviation_V = start * half_s - 0.5 * this.rise_V;
      this.endRate = start * left * left;
      return true;
    }
    const w = -perFold * start * whole_s;
    if (w <= -0.999) return false;
    const perGrowth_V = -1 / perFold;
    this.rise_V = quickLog1p(w) * perGrowth_V;
    this.deviation_V = quickLog1p(-perFold * start * half_s) * perGrowth_V - 0.5 * this.rise_V;
    this.endRate = (start * left * left) / (1 + w);
    return true;
  }
}

/** e^x - 1: by its series where that is short. */
function growthOver(x: number): number {
  if (!(x < 0.6 && x > -0.6)) return quickExp(x) - 1;
  const x2 = x * x;
  const x4 = x2 * x2;
  const low = 1 + x * 0.5 + x2 * (1 / 6 + x * (1 / 24));
  const high = 1 / 120 + x * (1 / 720) + x2 * (1 / 5040 + x * (1 / 40320) + x2 * (1 / 362880));
  return x * (low + x4 * high);
}
