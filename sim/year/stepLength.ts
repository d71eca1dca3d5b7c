import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import { type LampStepper, LEAST_STEP_S, SHORTEST_STEP_S } from './LampStepper.ts';

/** By how much the next step may be longer than the last: its error grows with the fourth power, what is allowed in proportion. */
export function growth({ allowed_V, error_V }: LampStepper): number {
  return error_V < 0.05 * allowed_V ? 2.5 : 0.8 * power(allowed_V / error_V, 1 / 3);
}

/** Length of the step to try after one that was too long, seconds; undefined where none is shorter. */
export function shorterStep_s({ step_s, error_V, allowed_V, stiff }: LampStepper): number | undefined {
  if (!(step_s > SHORTEST_STEP_S)) return undefined;
  const finite = Number.isFinite(error_V);
  const factor = finite ? shorterBy(error_V / allowed_V, stiff - 1) : 0.3;
  return Math.max(step_s * factor, finite && step_s > LEAST_STEP_S ? LEAST_STEP_S : SHORTEST_STEP_S);
}

/**
 * By how much a step that misses what is allowed so many times over is to be shorter: its error goes with the fourth power
 * of the way, which one that settles is through with early.
 */
function shorterBy(times: number, settles: number): number {
  const whole = 1 - exp(-settles);
  let factor = 0.7;
  for (; factor > 0.1; factor *= 0.8) {
    const way = settles > 0.1 ? (1 - exp(-factor * settles)) / whole : factor;
    if (way * way * way * way * times < 0.7 * Math.sqrt(factor)) break;
  }
  return factor;
}
