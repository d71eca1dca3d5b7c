import { describe, expect, it, test } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import { mostFailing } from '../../../sim/sizing/winters/shareInReach.ts';
import type { MadeWinter } from '../../../sim/trial/MadeTrials.ts';
import { highestLow, oddsOf } from '../../../sim/trial/odds.ts';

const winter = (fails: boolean): MadeWinter => ({
  nights: 365,
  failedNights: fails ? 2 : 0,
  short_h: fails ? 3 : 0,
  out_h: 0,
  longestSpell: fails ? 2 : 0,
  smallestReserve_J: 1,
  lightGiven_lm_h: 100,
  failed: [],
});

describe('what failed winters leave of a chance', () => {
  it('is never exceeded by odds, whatever climates learned again say', () => {
    const random = randomStream(7, 'share in reach');
    for (let n = 0; n < 300; n++) {
      const made = 10 + Math.floor(random.uniform() * 90);
      const learned = 5 + Math.floor(random.uniform() * 20);
      const failed = Math.floor(random.uniform() ** 3 * made);
      const winters = Array.from({ length: made }, (_, k) => winter(k < failed));
      const ofSample = () => {
        const share = random.uniform() * 0.3;
        return Array.from({ length: 6 }, () => winter(random.uniform() < share));
      };
      const learnsAgain = random.uniform() < 0.7;
      const samples = learnsAgain ? Array.from({ length: 16 }, ofSample) : [];
      const { low } = oddsOf(winters, samples, learned, 365).keeps;
      const grounds = { made, learnedWinters: learned, learnsAgain };
      expect(low, JSON.stringify({ n, failed, ...grounds })).toBeLessThanOrEqual(highestLow(failed, grounds));
      if (failed + 1 < made)
        expect(highestLow(failed + 1, grounds)).toBeLessThanOrEqual(highestLow(failed, grounds));
    }
  });

  it('says how many may fail', () => {
    // Wilson, 90 percent, of 36: .92 is .813 at least, .91 .800, .90 .788.
    const grounds = { made: 100, learnedWinters: 12, learnsAgain: true };
    expect(mostFailing(0.8, grounds)).toBe(9);
    expect(mostFailing(0.93, grounds)).toBe(0);
    expect(mostFailing(0.5, { made: 12, learnedWinters: 10, learnsAgain: false })).toBe(2);
  });
});

test.each([
  // n / (n + 1.6449^2): 24 of them show 0.899, 25 0.902.
  [0.9, 20, 12, true, /--must-keep 0.9 with --winters 20; .*is 0.88 with 20\. Fix: --winters 25 at least/],
  [
    0.95,
    300,
    12,
    true,
    /with a record of 12 winters; .*0\.93.*Fix: --must-keep 0\.93 at most, or a record of 18/,
  ],
  [
    0.8,
    300,
    10,
    false,
    /climate worth 10 winters; .*0\.78.*Fix: --must-keep 0\.78 at most, or a record of 5 /,
  ],
  [1, 300, 30, true, /Fix: --must-keep 0\.97 at most; no record shows more/],
])(
  'a share of %d by %d winters from %d is refused with what would do',
  (share, made, learned, again, words) => {
    const grounds = { made, learnedWinters: learned, learnsAgain: again };
    expect(() => mostFailing(share, grounds)).toThrow(words);
  },
);
