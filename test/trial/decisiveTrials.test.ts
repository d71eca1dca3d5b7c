import { describe, expect, test } from 'vitest';
import { decisiveTrials, hasHours, lettingHoursGo } from '../../sim/trial/decisiveTrials.ts';
import type { HourlyTrial, Trial } from '../../sim/trial/Trial.ts';
import { smallStatistics, smallTrial } from '../output/smallRun.ts';

const failing = (lamp: string, failedNights: number, short_h = failedNights) =>
  smallTrial({ lamp, statistics: smallStatistics({ failedNights, short_h }) });
const kept = (lamp: string, smallestReserve_J: number) =>
  smallTrial({ lamp, statistics: smallStatistics({ smallestReserve_J }) });
const names = (trials: readonly Trial[]) => trials.map(({ lamp }) => lamp);

/** Eight that fail and eight that are kept, in no order of either. */
const MANY = [5, 3, 8, 1, 7, 2, 6, 4].flatMap((n) => [failing(`f${n}`, 10 * n), kept(`k${n}`, 100 * n)]);

describe('decisive trials', () => {
  test('are all of twelve', () => {
    const twelve = MANY.slice(0, 12);
    expect(decisiveTrials({ trials: twelve })).toEqual(twelve);
  });

  test('of more are two from either end of those that fail and of those that are kept, in their order', () => {
    expect(names(decisiveTrials({ trials: MANY }))).toEqual([
      ...['f8', 'k8', 'f1', 'k1', 'f7', 'k7', 'f2', 'k2'],
    ]);
  });

  test('of a run that was interrupted are one from either end', () => {
    const partial = { completeTrials: 16, allTrials: 20 };
    expect(names(decisiveTrials({ trials: MANY, partial }))).toEqual(['f8', 'k8', 'f1', 'k1']);
    expect(decisiveTrials({ trials: MANY.slice(0, 4), partial })).toHaveLength(4);
  });

  test('go by short hours where as many nights fail', () => {
    const trials = [4, 1, 3, 5, 2, 6, 7, 9, 8, 10, 12, 13, 11].map((n) => failing(`f${n}`, 20, n));
    expect(names(decisiveTrials({ trials }))).toEqual(['f1', 'f2', 'f12', 'f13']);
  });

  test('are some where nothing was promised', () => {
    const trials = Array.from({ length: 13 }, (_, k) => kept(`n${k}`, Number.NaN));
    expect(names(decisiveTrials({ trials }))).toEqual(['n0', 'n1', 'n11', 'n12']);
  });
});

describe('letting hours go', () => {
  test('one trial after the other keeps those of the decisive ones, and never more than of thirteen', () => {
    let trials: Trial[] = [];
    let most = 0;
    for (let round = 0; round < 4; round++) {
      for (const trial of MANY) {
        trials = lettingHoursGo([...trials, { ...trial, lamp: `${trial.lamp}-${round}` }]);
        most = Math.max(most, trials.filter(hasHours).length);
      }
    }
    expect(trials).toHaveLength(64);
    expect(most).toBe(12);
    expect(decisiveTrials({ trials }).every(hasHours)).toBe(true);
    expect(names(decisiveTrials({ trials }))).toHaveLength(8);
  });

  test('takes nothing else from a trial', () => {
    const [first, ...others] = lettingHoursGo([kept('middle', 350), ...MANY]);
    const { columns, nights, ...year } = smallTrial().year;
    expect(first).toEqual({ ...kept('middle', 350), year });
    expect([columns.count, nights.count]).toEqual([48, 2]);
    expect(others.filter((trial): trial is HourlyTrial => hasHours(trial))).toHaveLength(8);
  });
});
