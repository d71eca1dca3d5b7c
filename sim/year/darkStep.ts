import type { LampStepper } from './LampStepper.ts';

/** Up to this share of itself the rate may change over a step at rest. */
const CALM = 0.05;
/** Farthest the voltage goes in a step at rest, and in a step of a lit lamp. */
const REST_V = 0.01;
const LIT_V = 0.35;
/** While a lit step bends less than this, its series serves. */
const SHORT = 0.5;
const SHORT_BEND = 0.2;
/** What is left of the corrections of a lit step, as a share of them: measured, see the tests. */
const LEFT_OF_LOAD = 1.5;
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
  spreadDelayed(lamp, even_V, -0.125 * startRate * h * z, slope, perC, perC);
  lamp.endRate = startRate * (1 + z);
  setBlocked(lamp, at_V);
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
  const aim_V = main_V + Math.max(guess_V, -LIT_V);
  const terminal_V = aim_V - ohm * lamp.startLoad_A;
  drains.at(aim_V);
  const perC = 1 / (lamp.c0 + c1 * aim_V + delayed.follow_F);
  load.at(terminal_V);
  curve.block(terminal_V);
  const give = ohm * load.slope_S;
  const turn = 1 - give * (1 - give * (1 - give));
  const load_A = load.current_A;
  const loadSlope = load.slope_S * turn;
  const loadSecond = load.secondDerivative_A_V2 * turn * turn * turn;
  const at_V = terminal_V + ohm * load_A;
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
  const t6 = z * (z2 * (z2 + 26 * zz) + 34 * zz * zz) * (1 / 720);
  const path_V = straight_V * (1 + 0.5 * z + t3 + (t4 + t5 + t6));
  const bulge_V = -0.125 * straight_V * (z + 3 * t3 + (3.5 * t4 + 3.75 * t5 + 3.875 * t6));
  // Simpson's rule over what the driver draws otherwise than expanded, each part as far as it is not forgotten.
  const startOff_A = lamp.startLoad_A - load_A - from_x * (loadSlope + 0.5 * from_x * loadSecond);
  const middle_x = from_x + 0.5 * path_V + bulge_V;
  const middle_A = load_A + middle_x * (loadSlope + 0.5 * middle_x * loadSecond);
  load.at(at_V + middle_x - ohm * middle_A);
  const middleOff_A = (load.current_A - middle_A) * turn;
  const to_x = from_x + path_V;
  const end_A = load_A + to_x * (loadSlope + 0.5 * to_x * loadSecond);
  load.at(at_V + to_x - ohm * end_A);
  const endOff_A = (load.current_A - end_A) * turn;
  const perOff = (-h * perC) / 6;
  const byStart_V = perOff * startOff_A * (1 + z * (1 + 0.5 * z));
  const byMiddle_V = 4 * perOff * middleOff_A * (1 + 0.5 * z * (1 + 0.25 * z));
  const byEnd_V = perOff * endOff_A;
  const by_V = byStart_V + byMiddle_V + byEnd_V;
  // At half time, of the start's share and a half of the quarter's.
  const halfway_V = 0.5 * perOff * (1.5 * startOff_A + middleOff_A) - 0.5 * by_V;
  const both_V = spreadDelayed(lamp, path_V + by_V, bulge_V + halfway_V, slope, perC, perC / (1 - 0.5 * z));
  const off_V = Math.abs(byStart_V) + Math.abs(byMiddle_V) + Math.abs(byEnd_V);
  lamp.error_V = LEFT_OF_LOAD * off_V + LEFT_OF_DELAYED_LIT * both_V;
  lamp.endRate = startRate * (1 + z + 3 * t3 + 4 * t4 + 5 * t5 + 6 * t6);
  setBlocked(lamp, at_V);
  const shift_V = lamp.rise_V - path_V;
  lamp.endLoad_A = end_A + endOff_A + loadSlope * shift_V;
  lamp.middleLoad_A = middle_A + middleOff_A + loadSlope * (0.5 * shift_V + lamp.deviation_V - bulge_V);
  return true;
}

/** Sets rise and deviation with what the delayed branches bend; out: size of that, volts. */
function spreadDelayed(
  lamp: LampStepper,
  even_V: number,
  bulge_V: number,
  slope: number,
  perC: number,
  settledPerC: number,
): number {
  const { delayed } = lamp;
  delayed.spread(even_V);
  const bent_V = (delayed.reaction_FC * perC - delayed.kappa_F * bulge_V) * settledPerC;
  const early_V = -slope * delayed.ahead_Cs * settledPerC;
  lamp.rise_V = even_V + bent_V + early_V;
  // The bend comes late: at half time there is little of it.
  lamp.deviation_V = bulge_V - delayed.half_C * perC - 0.5 * bent_V;
  const both_V = Math.abs(bent_V) + Math.abs(early_V);
  lamp.error_V = LEFT_OF_DELAYED * both_V;
  return both_V;
}

/** The expansion of a cell's current behind the blocked diode, as last read. */
function setBlocked(lamp: LampStepper, at_V: number): void {
  lamp.at_V = at_V;
  lamp.in_A = lamp.curve.blocked_A;
  lamp.inSlope = lamp.curve.blockedSlope;
  lamp.inSecond = 0;
  lamp.inThird = 0;
  lamp.endIn_A = lamp.curve.blocked_A;
}
