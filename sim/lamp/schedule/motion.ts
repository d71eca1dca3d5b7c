import { exp, expm1 } from '../../common/elementary/exp.ts';
import { power } from '../../common/elementary/power.ts';
import { randomStream } from '../../common/random.ts';
import type { ScheduleSection } from './schema.ts';

export type Motion = NonNullable<ScheduleSection['motion']>;

const HOUR_S = 3600;

/**
 * Share of an hour in which a lamp that waits for motion shines.
 *
 * As many triggers as a Poisson distribution gives come at any time of the hour, each alike; one that comes while it
 * shines makes it shine as long from there. The same seed gives the same triggers to every lamp, whatever its schedule.
 *
 * in: motion; seed; hour, counted from 1970 in UTC
 * out: 0 to 1; over many hours `usualShare` on average
 * departs: what shines over the end of an hour counts within it
 */
export function motionShare({ triggers_per_h, shines_s }: Motion, seed: number, hour: number): number {
  const draw = randomStream(seed, 'motion', hour).uniform();
  let chance = exp(-triggers_per_h);
  let below = chance;
  let triggers = 0;
  // By its inverse: more are expected, never fewer come.
  while (draw > below && chance > 0) {
    triggers++;
    chance *= triggers_per_h / triggers;
    below += chance;
  }
  return 1 - power(1 - shines_s / HOUR_S, triggers);
}

/**
 * Share of the time that a schedule has the LED on between switching on and off, on average: flashes and motion, not the
 * light of its dim steps.
 *
 * @example usualShare({ on_share: 1, motion: { triggers_per_h: 6, shines_s: 60 } }); // => 0.0951626
 */
export function usualShare({ on_share, motion }: Pick<ScheduleSection, 'on_share' | 'motion'>): number {
  const moved = motion === undefined ? 1 : -expm1((-motion.triggers_per_h * motion.shines_s) / HOUR_S);
  return on_share * moved;
}
