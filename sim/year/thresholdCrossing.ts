import type { LampStepper } from './LampStepper.ts';

/**
 * Share of a step, 0 to 1, at which the light of the lit LED passes a level; for a step whose ends lie on both sides.
 *
 * The terminal voltage is followed by the cubic through the step's ends and slopes.
 * in: lamp, whose light is read; from_V, to_V, terminal voltages; fromSlope, toSlope, their rates times the step;
 *   level_lm
 * valid: one passage in the step; within a second for steps of an hour
 */
export function thresholdCrossing(
  lamp: LampStepper,
  from_V: number,
  to_V: number,
  fromSlope: number,
  toSlope: number,
  level_lm: number,
): number {
  const falling = lamp.light_lm(from_V) > lamp.light_lm(to_V);
  let low = 0;
  let high = 1;
  for (let i = 0; i < 30; i++) {
    const x = (low + high) / 2;
    const left = 1 - x;
    const voltage =
      left * left * (1 + 2 * x) * from_V +
      x * x * (3 - 2 * x) * to_V +
      x * left * (left * fromSlope - x * toSlope);
    if (lamp.light_lm(voltage) > level_lm === falling) low = x;
    else high = x;
  }
  return (low + high) / 2;
}
