import { describe, expect, test } from 'vitest';
import { summaryJson } from '../../sim/output/summaryJson.ts';
import { nightStatistics } from '../../sim/statistics/overWinters.ts';
import { brokenStatistics, smallRun, smallTrial } from './smallRun.ts';

const PROGRAM = { version: '1.2.3', nodeMajor: 20 };
const FILES = { 'nights.csv': 'ef'.repeat(32) };

function summaryOf(...trials: Parameters<typeof smallRun>[0] & object) {
  return JSON.parse(summaryJson(smallRun(trials), PROGRAM, FILES));
}

describe('summary.json', () => {
  test('has the keys of schema 1 in their order', () => {
    const summary = summaryOf(smallTrial());
    expect(Object.keys(summary)).toEqual([
      'schema',
      'longnight',
      'node_major',
      'seed',
      'scenario',
      'weather',
      'assumptions',
      'questions',
      'cautions',
      'trials',
      'files',
    ]);
    expect(Object.keys(summary.scenario)).toEqual(['name', 'sha256', 'resolved']);
    expect(Object.keys(summary.weather)).toEqual(['sha256', 'first_utc', 'hours', 'filled_hours', 'options']);
    const [trial] = summary.trials;
    expect(Object.keys(trial).slice(0, 6)).toEqual([
      'spot',
      'lamp',
      'verdict',
      'winters',
      'months',
      'energy_J',
    ]);
    expect(trial).toMatchObject({ flags: [], changes: [] });
    expect(summary).toMatchObject({ schema: 1, longnight: '1.2.3', node_major: 20, seed: 7, files: FILES });
  });

  test('holds several winters as a sample, and one not', () => {
    const [winter] = brokenStatistics().winters;
    const calm = { ...winter!, winter: '2024/25', failedNights: 0, short_h: 0 };
    const several = { ...brokenStatistics(), ...nightStatistics([calm, winter!]) };
    const [trial] = summaryOf(smallTrial({ statistics: several })).trials;
    expect(Object.keys(trial).slice(2, 5)).toEqual(['verdict', 'odds', 'winters']);
    expect(trial.odds).toMatchObject({
      winters: 2,
      kept: 1,
      chance: { share: 0.5, winters: 2, confidence: 0.9, method: 'Wilson' },
      failed_nights: { mean: 11.5, typical: 11.5, best: 0, worst: 23 },
      typical_winter: '2024/25',
      worst_winter: '2025/26',
      best_winter: '2024/25',
    });
    expect(trial.odds.failed_nights).not.toHaveProperty('worst_in_ten');
    expect(summaryOf(smallTrial({ statistics: brokenStatistics() })).trials[0]).not.toHaveProperty('odds');
  });

  test('gives the answers of a winter under the names of the schema', () => {
    const [winter] = summaryOf(smallTrial({ statistics: brokenStatistics() })).trials[0].winters;
    expect(winter).toMatchObject({
      winter: '2025/26',
      complete: true,
      nights: 365,
      failed_nights: 23,
      failed_out: 20,
      short_h: 61.2,
      dim_h: 10.5,
      out_h: 50.7,
      worst_night: { night: '2025-12-21', short_h: 5.25, dim_h: 1, out_h: 4.25, cause: 'ran-empty' },
      longest_spell: { from: '2025-12-18', to: '2025-12-22', nights: 5 },
      darkest_fortnight: { from: '2025-12-12', to: '2025-12-25', failed_nights: 11 },
      light_given_lm_h: 4380,
      smallest_reserve_J: 45.4,
      recovery_nights: 3,
    });
  });

  test('gives null where a thing does not apply, and never a number that JSON cannot hold', () => {
    const [winter] = summaryOf(smallTrial()).trials[0].winters;
    expect(winter).toMatchObject({
      worst_night: null,
      longest_spell: null,
      darkest_fortnight: null,
      recovery_nights: null,
      short_median_h: null,
    });
  });

  test('rounds results to 9 significant digits, and writes no negative zero', () => {
    const text = summaryJson(smallRun(), PROGRAM, FILES);
    expect(text).toContain('"light": 333333.333,');
    expect(text).toContain('"residual": 0\n');
  });

  test('holds no absolute path and ends in a line break', () => {
    const text = summaryJson(smallRun(), PROGRAM, FILES);
    expect(text).not.toContain('/home/someone');
    expect(text.endsWith('}\n')).toBe(true);
  });

  test('has a trial for each of the run, in order', () => {
    const { trials } = summaryOf(smallTrial(), smallTrial({ spot: 'shed' }));
    expect(trials.map((trial: { spot: string }) => trial.spot)).toEqual(['lawn', 'shed']);
  });
});
