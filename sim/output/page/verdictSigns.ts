import type { Verdict } from '../../statistics/TrialStatistics.ts';

/** The verdict in a word, after a sign told apart by its shape. */
export const VERDICT_SIGNS: Readonly<Record<Verdict, string>> = {
  kept: '● kept',
  broken: '▲ broken',
  'nothing-promised': '– nothing promised',
  'no-whole-winter': '? no verdict',
};
