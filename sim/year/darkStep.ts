import type { LampStepper } from './LampStepper.ts';

/** Up to this share of itself the rate may change over a step at rest. */
const CALM = 0.05;
/** Farthest the voltage goes in a step at rest, and in a step of a lit lamp. */
const REST_V = 0.01;
const LIT_V = 0.35;
/** Up to this share of itself the rate may change over a lit step. */
const LIT_CALM = 0.5;
/** What is left of the corrections of a lit step, as a share of them: measured, see the tests. */
const LEFT_OF_LOAD = 1.5;

/**
 * The step of a lamp in the dark with its LED off: leakage, standby, the blocked diode and the delayed branches draw, so
 * little that the rate is a straight line.
 *
 * in: lamp, begun; out: false where this does not do
 */
export function restStep(lamp: LampStepper): boolean {
  const { curve, drains, delayed, main_V, step_s: h } = lamp;
  const at_V = main_V + 0.5 * h * lamp.lastRate;
  drains.main_V = at_V;
  drains.read();
  curve.target_V = at_V;
  curve.block();
  const perC = 1 / (lamp.c0 + lamp.c1 * at_V + delayed.follow_F);
  const rate = (curve.blocked_A - drains.drawn_A - delayed.base_A) * perC;
  const slope = (curve.blockedSlope - drains.drawnSlope - rate * lamp.c1) * perC;
  const startRate = rate + slope * (main_V - at_V);
  const z = slope * h;
  const even_V = startRate * h * (1 + z * (0.5 + z * (1 / 6)));
  if (!(z < CALM && z > -CALM && even_V < REST_V && even_V > -REST_V)) return false;
  lamp.rise_V = even_V;
  lamp.deviation_V = -0.125 * startRate * h * z;
  lamp.error_V = 0;
  lamp.perC = perC;
  lamp.path.slope = slope;
  lamp.stiff = 1 - z;
  lamp.spreadDelayed();
  lamp.endRate = startRate * (1 + z);
  lamp.at_V = at_V;
  setBlocked(lamp);
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
  const { curve, load, drains, delayed, path, ohm, main_V, step_s: h, c1 } = lamp;
  const guess_V = 0.5 * h * lamp.lastRate;
  const aim_V = main_V + Math.max(guess_V, -LIT_V);
  const terminal_V = aim_V - ohm * lamp.startLoad_A;
  drains.main_V = aim_V;
  drains.read();
  const perC = 1 / (lamp.c0 + c1 * aim_V + delayed.follow_F);
  load.terminal_V = terminal_V;
  load.read();
  curve.target_V = terminal_V;
  curve.block();
  const give = ohm * load.slope_S;
  const turn = 1 - give * (1 - give * (1 - give));
  const load_A = load.current_A;
  const loadSlope = load.slope_S * turn;
  const loadSecond = load.secondDerivative_A_V2 * turn * turn * turn;
  const at_V = terminal_V + ohm * load_A;
  const slope = (curve.blockedSlope - loadSlope - drains.drawnSlope) * perC;
  path.rate = (curve.blocked_A - load_A - drains.drawn_A - delayed.base_A) * perC;
  path.slope = slope - path.rate * c1 * perC;
  path.second = -(loadSecond + drains.leakSecond + 2 * c1 * path.slope) * perC;
  path.third = 0;
  path.from_V = main_V - at_V;
  path.duration_s = h;
  const { from_V: from_x } = path;
  const z = (path.slope + path.second * from_x) * h;
  if (!(z < LIT_CALM && z > -LIT_CALM && path.follow() && path.rise_V > -LIT_V)) return false;
  const { rise_V: path_V, deviation_V: bulge_V } = path;
  // Simpson's rule over what the driver draws otherwise than expanded, each part as far as it is not forgotten.
  const startOff_A = lamp.startLoad_A - load_A - from_x * (loadSlope + 0.5 * from_x * loadSecond);
  const middle_x = from_x + 0.5 * path_V + bulge_V;
  const middle_A = load_A + middle_x * (loadSlope + 0.5 * middle_x * loadSecond);
  load.terminal_V = at_V + middle_x - ohm * middle_A;
  load.read();
  const middleOff_A = (load.current_A - middle_A) * turn;
  const to_x = from_x + path_V;
  const end_A = load_A + to_x * (loadSlope + 0.5 * to_x * loadSecond);
  load.terminal_V = at_V + to_x - ohm * end_A;
  load.read();
  const endOff_A = (load.current_A - end_A) * turn;
  const perOff = (-h * perC) / 6;
  const byStart_V = perOff * startOff_A * (1 + z * (1 + 0.5 * z));
  const byMiddle_V = 4 * perOff * middleOff_A * (1 + 0.5 * z * (1 + 0.25 * z));
  const byEnd_V = perOff * endOff_A;
  const by_V = byStart_V + byMiddle_V + byEnd_V;
  // At half time, of the start's share and a half of the quarter's.
  const halfway_V = 0.5 * perOff * (1.5 * startOff_A + middleOff_A) - 0.5 * by_V;
  lamp.rise_V = path_V + by_V;
  lamp.deviation_V = bulge_V + halfway_V;
  lamp.error_V = LEFT_OF_LOAD * (Math.abs(byStart_V) + Math.abs(byMiddle_V) + Math.abs(byEnd_V));
  lamp.perC = perC;
  lamp.stiff = 1 - z;
  lamp.spreadDelayed();
  lamp.endRate = path.endRate;
  lamp.at_V = at_V;
  setBlocked(lamp);
  const shift_V = lamp.rise_V - path_V;
  lamp.endLoad_A = end_A + endOff_A + loadSlope * shift_V;
  lamp.middleLoad_A = middle_A + middleOff_A + loadSlope * (0.5 * shift_V + lamp.deviation_V - bulge_V);
  return true;
}

/** The expansion of a cell's current behind the blocked diode, as last read. */
function setBlocked(lamp: LampStepper): void {
  lamp.in_A = lamp.curve.blocked_A;
  lamp.inSlope = lamp.curve.blockedSlope;
  lamp.inSecond = 0;
  lamp.inThird = 0;
  lamp.endIn_A = lamp.curve.blocked_A;
}
