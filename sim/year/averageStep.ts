import type { LampStepper } from './LampStepper.ts';

/** A step that settles this many times over has its mean from its equation, one that settles slower from its path. */
const STIFF = 12;
/** Gauss's five points in a step, and their weights. */
const NODES = [0.046910077030668, 0.2307653449471585, 0.5, 0.7692346550528415, 0.953089922969332];
const WEIGHTS = [
  0.1184634425280945, 0.2393143352496832, 0.2844444444444444, 0.2393143352496832, 0.1184634425280945,
];

/**
 * Sets mean_V and spread_V2 of a lamp's tried step, mean of the inner voltage over it and mean square about that: of a
 * stiff step from the equation it follows, whose integrals are known, of one that settles slower along its path, else of
 * the parabola through its ends and middle.
 */
export function averageStep(lamp: LampStepper): void {
  const { path, rise_V, deviation_V } = lamp;
  const { slope: p, rate } = path;
  const from_x = lamp.main_V - lamp.at_V;
  const h = lamp.step_s;
  const middle_x = from_x + 0.5 * rise_V + deviation_V;
  const to_x = from_x + rise_V;
  let mean_x = (from_x + 4 * middle_x + to_x) / 6;
  let squares = (from_x * from_x + 4 * middle_x * middle_x + to_x * to_x) / 6;
  if (lamp.expanded && p * h < -STIFF) {
    const end_x = from_x + lamp.evenRise_V;
    const halved = (end_x * end_x - from_x * from_x) / (2 * h);
    mean_x = (lamp.evenRise_V / h - rate) / p;
    mean_x -= (0.5 * path.second * (halved - rate * mean_x)) / (p * p);
    squares = (halved - rate * mean_x) / p;
  } else if (lamp.expanded && p * h < -0.5) {
    mean_x = 0;
    squares = 0;
    const corrected_V = lamp.rise_V - path.rise_V;
    for (let node = 0; node < NODES.length; node++) {
      const part = NODES[node]!;
      path.duration_s = part * h;
      path.follow();
      const x = from_x + path.rise_V + part * corrected_V;
      mean_x += WEIGHTS[node]! * x;
      squares += WEIGHTS[node]! * x * x;
    }
  }
  lamp.spread_V2 = Math.max(0, squares - mean_x * mean_x);
  lamp.mean_V = lamp.at_V + mean_x;
}
