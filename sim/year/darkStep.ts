import type { LampStepper } from './LampStepper.ts';

/** Up to this share of itself the rate may change over a step at rest. */
const CALM = 0.05;
/** Farthest the voltage goes in a step at rest, and in a step of a lit lamp. */
const REST_V = 0.01;
const LIT_V = 0.25;
/** While a lit step bends less than this, its series serves. */
const SHORT = 0.3;
const SHORT_BEND = 0.05;
/** What is left of the corrections of a lit step, as a share of them: measured, see the tests. */
const LEFT_OF_LOAD = 0.1;
const LEFT_OF_DELAYED = 0.15;
const LEFT_OF_DELAYED_LIT = 0.4;

/**
 * The step of a lamp in the dark with its LED off: leakage, standby, the blocked diode and the delayed branches draw, so
 * little that the rate is a straight line.
 *
 * in: lamp, begun; out: false where this does not do, and nothing is set
 */
export function restStep(lamp: LampStepper): boolean {
  const { curve, drains, delayed, main_V, step_s: h } = lamp;
  const at_V = main_V + 0.5 * h * lamp.lastRate;
  drains.at(at_V);
  curve.block(at_V);
  const perC = 1 / (lamp.c0 + lamp.c1 * at_V + delayed.follow_F);
  const rate = (curve.blocked_A - drains.drawn_A - delayed.base_A) * perC;
  const slope = (curve.blockedSlope - drains.drawnSlope - rate * lamp.c1) * perC;
  const startRate = rate + slope * (main_V - at_V);
  const z = slope * h;
  const even_V = startRate * h * (1 + z * (0.5 + z * (1 / 6)));
  if (!(z < CALM && z > -CALM && even_V < REST_V && even_V > -REST_V)) return false;
  const deviation_V = -0.125 * startRate * h * z - delayed.half_C(even_V) * perC;
  const bent_V = -delayed.kappa_F * deviation_V * perC;
  lamp.rise_V = even_V + bent_V - slope * delayed.ahead_Cs(even_V) * perC;
  lamp.deviation_V = deviation_V;
  lamp.error_V = LEFT_OF_DELAYED * (bent_V < 0 ? -bent_V : bent_V);
  lamp.endRate = startRate * (1 + z);
  lamp.at_V = at_V;
  lamp.in_A = curve.blocked_A;
  lamp.inSlope = curve.blockedSlope;
  lamp.inSecond = 0;
  lamp.inThird = 0;
  lamp.endIn_A = curve.blocked_A;
  lamp.endLoad_A = 0;
  lamp.middleLoad_A = 0;
  return true;
}

/**
 * The step of a lit lamp in the dark: the driver's current is expanded to second order about the guessed middle, its
 * true value at both ends corrects the step and is the measure of its error.
 *
 * in: lamp, begun; out: false where this does not do, and nothing is set that a further try does not set again
 */
export function litStep(lamp: LampStepper): boolean {
  const { curve, load, drains, delayed, ohm, main_V, step_s: h, c1 } = lamp;
  const guess_V = 0.5 * h * lamp.lastRate;
  const terminal_V = main_V + Math.max(guess_V, -LIT_V) - ohm * lamp.startLoad_A;
  load.at(terminal_V);
  curve.block(terminal_V);
  const turn = 1 / (1 + ohm * load.slope_S);
  const load_A = load.current_A;
  const loadSlope = load.slope_S * turn;
  const loadSecond = load.secondDerivative_A_V2 * turn * turn * turn;
  const at_V = terminal_V + ohm * load_A;
  drains.at(at_V);
  const perC = 1 / (lamp.c0 + c1 * at_V + delayed.follow_F);
  const rate = (curve.blocked_A - load_A - drains.drawn_A - delayed.base_A) * perC;
  const slope = (curve.blockedSlope - loadSlope - drains.drawnSlope - rate * c1) * perC;
  const second = -(loadSecond + drains.leakSecond + 2 * c1 * slope) * perC;
  const from_x = main_V - at_V;
  const startRate = rate + from_x * (slope + 0.5 * second * from_x);
  const z = (slope + second * from_x) * h;
  const zz = second * startRate * h * h;
  const straight_V = startRate * h;
  if (!(z < SHORT && z > -SHORT && zz < SHORT_BEND && zz > -SHORT_BEND && straight_V > -LIT_V)) return false;
  const z2 = z * z;
  const t3 = (z2 + zz) * (1 / 6);
  const t4 = z * (z2 + 4 * zz) * (1 / 24);
  const t5 = (z2 * (z2 + 11 * zz) + 4 * zz * zz) * (1 / 120);
  const path_V = straight_V * (1 + 0.5 * z + t3 + t4 + t5);
  // Simpson's weights for what the driver draws otherwise than expanded, the middle nearly none of it.
  const to_x = from_x + path_V;
  const expanded_A = load_A + to_x * (loadSlope + 0.5 * to_x * loadSecond);
  load.at(main_V + path_V - ohm * expanded_A);
  const endOff_A = (load.current_A - expanded_A) * turn;
  const startOff_A = lamp.startLoad_A - load_A - from_x * (loadSlope + 0.5 * from_x * loadSecond);
  const settled = (h * perC) / (6 - 3 * z);
  const byStart_V = -startOff_A * settled;
  const byEnd_V = -endOff_A * settled;
  const even_V = path_V + byStart_V + byEnd_V;
  const halfSettled = perC / (1 - 0.5 * z);
  const deviation_V =
    -0.125 * straight_V * (z + 3 * t3 + 3.5 * t4 + 3.75 * t5) - delayed.half_C(even_V) * halfSettled;
  const bent_V = -delayed.kappa_F * deviation_V * halfSettled;
  const early_V = (-slope * delayed.ahead_Cs(even_V) * perC) / (1 - 0.5 * z);
  lamp.rise_V = even_V + bent_V + early_V;
  lamp.deviation_V = deviation_V;
  lamp.error_V =
    LEFT_OF_LOAD * (Math.abs(byStart_V) + Math.abs(byEnd_V)) +
    LEFT_OF_DELAYED_LIT * (Math.abs(bent_V) + Math.abs(early_V));
  lamp.endRate = startRate * (1 + z + 3 * t3 + 4 * t4 + 5 * t5);
  lamp.at_V = at_V;
  lamp.in_A = curve.blocked_A;
  lamp.inSlope = curve.blockedSlope;
  lamp.inSecond = 0;
  lamp.inThird = 0;
  lamp.endIn_A = curve.blocked_A;
  lamp.endLoad_A = expanded_A + endOff_A + loadSlope * (lamp.rise_V - path_V);
  const middle_x = from_x + 0.5 * lamp.rise_V + deviation_V;
  lamp.middleLoad_A = load_A + middle_x * (loadSlope + 0.5 * middle_x * loadSecond);
  return true;
}
