import { expect, test } from 'vitest';
import { oddsChart } from '../../../sim/output/figures/oddsChart.ts';
import type { MadeWinter } from '../../../sim/trial/MadeTrials.ts';
import { oddsOf } from '../../../sim/trial/odds.ts';

const WINTER: MadeWinter = {
  nights: 365,
  failedNights: 1,
  short_h: 2,
  out_h: 0,
  longestSpell: 1,
  smallestReserve_J: 1,
  lightGiven_lm_h: 100,
  failed: [170],
};

test('the season of made winters names no year, for they have none', () => {
  const odds = {
    ...oddsOf([WINTER, WINTER], [], 10, 365),
    spot: 'lawn',
    lamp: 'one',
    secondOpinion: undefined,
  };
  const { svg, summary } = oddsChart('odds', odds, false);
  expect(summary).toContain('of 2 made winters');
  expect(svg).toContain('>Dec<');
  expect(svg).not.toMatch(/>200[12]</);
});
