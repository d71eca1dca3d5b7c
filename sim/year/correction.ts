import type { LampStepper } from './LampStepper.ts';

/** Up to this share of what is allowed, what the fourth order may add is taken without a look at the step's ends. */
const UNLOOKED = 0.5;
/** What is left of a correction by the defects at a step's ends, as a share of it: measured, see the tests. */
const LEFT_OF_CORRECTION = 0.1;
/** The same of a lit step, whose driver's curve is a table's. */
const LEFT_WHEN_LIT = 1.5;
/** What a stiff step adds to that share. */
const LEFT_WHEN_STIFF = 0.2;
/** How far two orders may be alike by chance: so much of the third stands for what both leave out. */
const ALIKE = 0.1;

/**
 * Corrects a step by the third order that its path leaves out; what the fourth would add, if orders go on as they
 * grew, is its error. out: false where that is not little enough
 */
export function correctByThird(lamp: LampStepper): boolean {
  const { path } = lamp;
  if (path.missed === 0) return lamp.error_V <= UNLOOKED * lamp.allowed_V;
  const from_x = path.from_V;
  const to_x = from_x + path.rise_V;
  const middle_x = from_x + 0.5 * path.rise_V + path.deviation_V;
  const z = lamp.stiff - 1;
  const start = (from_x * from_x * from_x) / (1 + z + 0.5 * z * z);
  const middle = (4 * middle_x * middle_x * middle_x) / (1 + 0.5 * z + 0.125 * z * z);
  const end = (to_x * to_x * to_x) / (1 + z * (1 / 6));
  const per36_s = lamp.step_s * (1 / 36);
  const by_V = path.missed * per36_s * (start + middle + end);
  // The third order cancels itself about the middle, the fourth does not.
  const ways = per36_s * (Math.abs(start) + Math.abs(middle) + Math.abs(end));
  const third = Math.abs(path.third);
  const missed = Math.abs(path.missed);
  const reach = Math.max(Math.abs(from_x), Math.abs(to_x));
  const orders = missed + third;
  const grows = orders === 0 ? 0 : Math.min((0.25 * reach * orders) / Math.abs(path.second), 1);
  lamp.error_V = ways * (missed + ALIKE * third) * grows;
  if (lamp.error_V > UNLOOKED * lamp.allowed_V) return false;
  lamp.rise_V += by_V;
  lamp.endIn_A += lamp.inSlope * by_V;
  return true;
}

/** Corrects a step by the true currents at its ends, and takes what is left as its error. */
export function correctByLook(lamp: LampStepper): void {
  const { path } = lamp;
  lamp.probe_V = lamp.main_V;
  lamp.curve.in_A = lamp.expandedIn_A(path.from_V);
  lamp.probeLoad_A = lamp.startLoad_A;
  lamp.probe();
  const startOff = lamp.probeRate - path.startRate;
  lamp.startLoad_A = lamp.probeLoad_A;
  lamp.startTerminal_V = lamp.main_V + lamp.ohm * (lamp.probeIn_A - lamp.probeLoad_A);
  lamp.probe_V = lamp.main_V + path.rise_V;
  lamp.curve.in_A = lamp.endIn_A;
  lamp.probeLoad_A = lamp.endLoad_A;
  lamp.probe();
  const settles = lamp.probeSlope < 0 ? -lamp.probeSlope * lamp.step_s : 0;
  correctBy(lamp, startOff, lamp.probeRate - path.endRate, settles);
  const by_V = lamp.rise_V - path.rise_V;
  lamp.endIn_A = lamp.probeIn_A + lamp.probeInSlope * by_V;
  lamp.endLoad_A = lamp.probeLoad_A + lamp.probeLoadSlope * by_V;
}

/**
 * Corrects rise_V by what the rate at both ends differs from the path's, V/s, and sets error_V. Simpson's weights; a
 * stiff step forgets its start and rests on its end, by the slope there. The defect grows with the cube of the way from
 * the point of expansion, which tells what it is at half time.
 */
function correctBy(lamp: LampStepper, startOff: number, endOff: number, settles: number): void {
  const { path, step_s: h } = lamp;
  const z = lamp.stiff - 1;
  const from_x = path.from_V;
  const to_x = from_x + path.rise_V;
  // Of the third and fourth power of the way; where one end lies at the point itself, of the third alone.
  const from3 = from_x * from_x * from_x;
  const to3 = to_x * to_x * to_x;
  const both = from_x * to_x < -0.04 * (to_x - from_x) * (to_x - from_x);
  const fourth = both ? (endOff / to3 - startOff / from3) / (to_x - from_x) : 0;
  const third = both ? endOff / to3 - fourth * to_x : to3 === from3 ? 0 : (endOff - startOff) / (to3 - from3);
  const bulge_V = 3 * path.deviation_V;
  const defect = (x: number) => x * x * x * (third + fourth * x);
  const early = defect(from_x + 0.25 * path.rise_V + bulge_V * 0.25) / (1 + z * (0.75 + 0.28 * z));
  const middle = defect(from_x + 0.5 * path.rise_V + path.deviation_V) / (1 + z * (0.5 + 0.125 * z));
  const late = defect(from_x + 0.75 * path.rise_V + bulge_V * 0.25) / (1 + z * (0.25 + 0.031 * z));
  const byStart_V = (7 / 90) * h * (startOff / (1 + z + 0.5 * z * z));
  const byMiddle_V = h * ((32 / 90) * (early + late) + (12 / 90) * middle);
  const byEnd_V = (h * endOff) / (90 / 7 + settles);
  lamp.rise_V += byStart_V + byMiddle_V + byEnd_V;
  // Simpson's weights are exact for slow changes, those of a stiff step a guess between their limits.
  const left = lamp.lit ? LEFT_WHEN_LIT : LEFT_OF_CORRECTION + (LEFT_WHEN_STIFF * z) / (2 + z);
  lamp.error_V = left * ((byStart_V < 0 ? -byStart_V : byStart_V) + (byEnd_V < 0 ? -byEnd_V : byEnd_V));
}
