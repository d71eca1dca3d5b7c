import { describe, expect, it } from 'vitest';
import { checkTruth, summaryOf } from './coverage.ts';

/** Truths held here; `npm run odds -- 1 40` holds more, by hand. */
const TRUTHS = Array.from({ length: 9 }, (_, k) => k + 1);

describe('odds of climates of which every number is known', () => {
  const checked = TRUTHS.map((seed) => checkTruth(seed));

  it('hold the true chance in the stated interval, about nine times in ten', () => {
    // 27 intervals: of nine in ten 21 to 27 hold, but for one case in a hundred.
    const { held, errors } = summaryOf(checked.flat());
    expect(held).toBeGreaterThan(0.77);
    // Neither too narrow nor too wide: of some 15 chances the root mean square is known to a fifth.
    expect(errors).toBeGreaterThan(0.6);
    expect(errors).toBeLessThan(1.3);
  });

  it('are not kinder or harsher than the truth by a tenth, nor by half a night', () => {
    for (const lamp of [0, 1, 2]) {
      const { biasNights, biasShare } = summaryOf(checked.map((lamps) => lamps[lamp]!));
      expect(Math.min(Math.abs(biasShare) / 0.1, Math.abs(biasNights) / 0.5)).toBeLessThan(1);
    }
  });
});
