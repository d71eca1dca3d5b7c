import { describe, expect, it } from 'vitest';
import { motionShare, usualShare } from '../../../sim/lamp/schedule/motion.ts';

const HOURS = 40_000;
const shares = (triggers_per_h: number, shines_s: number, seed = 1) =>
  Array.from({ length: HOURS }, (_, hour) => motionShare({ triggers_per_h, shines_s }, seed, hour));

describe('the share of an hour that motion has a lamp on', () => {
  it('comes to as many triggers as a Poisson distribution gives', () => {
    // One second each: next to no overlap, so that the share counts the triggers.
    const counts = shares(4, 1).map((share) => Math.round(share * 3600));
    const mean = counts.reduce((sum, n) => sum + n, 0) / HOURS;
    const variance = counts.reduce((sum, n) => sum + (n - mean) ** 2, 0) / HOURS;
    // Four standard errors of mean and variance: 2 / sqrt(HOURS), and sqrt(2) 4 / sqrt(HOURS) and a little.
    expect(Math.abs(mean - 4)).toBeLessThan(0.04);
    expect(Math.abs(variance - 4)).toBeLessThan(0.14);
    const none = counts.filter((n) => n === 0).length / HOURS;
    expect(Math.abs(none - Math.exp(-4))).toBeLessThan(4 * Math.sqrt(Math.exp(-4) / HOURS));
  });

  it('comes on average to what triggers that overlap leave', () => {
    for (const [triggers_per_h, shines_s] of [
      [0.5, 60],
      [6, 300],
      [30, 120],
      [120, 3600],
    ] as const) {
      const mean = shares(triggers_per_h, shines_s).reduce((sum, share) => sum + share, 0) / HOURS;
      const expected = usualShare({ on_share: 1, motion: { triggers_per_h, shines_s } });
      // Four standard errors, of a share that is on or off at the most.
      expect(Math.abs(mean - expected)).toBeLessThan(
        4 * Math.sqrt((expected * (1 - expected)) / HOURS) + 1e-9,
      );
    }
  });

  it('is the same for the same seed and hour, and never less where more triggers are expected', () => {
    const few = shares(3, 60);
    expect(shares(3, 60)).toEqual(few);
    expect(shares(3, 60, 2)).not.toEqual(few);
    shares(5, 60).forEach((share, hour) => {
      expect(share).toBeGreaterThanOrEqual(few[hour]!);
    });
  });
});
