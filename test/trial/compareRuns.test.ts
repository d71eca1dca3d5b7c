import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Comparison } from '../../sim/trial/Comparison.ts';
import { compareRuns } from '../../sim/trial/compareRuns.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';

const demo = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));

let run: RunResult<HourlyTrial>;
let bySpot: Comparison;
beforeAll(async () => {
  run = await runAll(loadScenario(demo, 'invented-garden.yaml'));
  bySpot = compareRuns([run], 'spot');
});

/** The same run under another name, for comparing two. */
const renamed = (changes: Partial<RunResult<HourlyTrial>> = {}): RunResult<HourlyTrial> => ({
  ...run,
  ...changes,
  scenario: { ...run.scenario, ...changes.scenario, name: 'other' },
});

describe('compareRuns', () => {
  it('makes a table for each lamp by spot, and for each spot by lamp, with every trial once', () => {
    const byLamp = compareRuns([run], 'lamp');
    const seen = (comparison: Comparison) =>
      comparison.tables.map(({ name, trials }) => [
        name,
        trials.map((k) => `${comparison.trials[k]!.lamp} on ${comparison.trials[k]!.spot}`),
      ]);
    expect(seen(bySpot)).toEqual([
      ['single', ['single on lawn', 'single on north-side']],
      ['double', ['double on lawn', 'double on north-side']],
    ]);
    expect(seen(byLamp)).toEqual([
      ['lawn', ['single on lawn', 'double on lawn']],
      ['north-side', ['single on north-side', 'double on north-side']],
    ]);
  });

  it('says of each trial what its statistics say', () => {
    for (const [k, trial] of run.trials.entries()) {
      const compared = bySpot.trials[k]!;
      const [winter] = trial.statistics.winters;
      expect(compared).toMatchObject({
        verdict: trial.statistics.verdict,
        winters: 1,
        failedNights: winter!.failedNights,
        smallestReserve_J: winter!.smallestReserve_J,
        smallestReserveNight: winter!.smallestReserveNight,
      });
      expect(compared.longestSpell).toEqual(winter!.longestSpell);
      expect(compared.darkestFortnight).toEqual(winter!.darkestFortnight);
      const failed = compared.months.reduce((sum, month) => sum + month.failedNights, 0);
      expect(failed).toBe(winter!.failedNights);
      // Sums of the same addends in another order.
      expect(compared.short_h).toBeCloseTo(winter!.short_h, 9);
      expect(compared.lightGiven_lm_h).toBeCloseTo(winter!.lightGiven_lm_h, 6);
    }
  });

  it('gives the light by month that the month statistics give, its parts adding up to it', () => {
    for (const spot of bySpot.spots) {
      const { months } = run.trials.find((trial) => trial.spot === spot.spot)!.statistics;
      expect(spot.months.map(({ month }) => month)).toEqual(bySpot.months);
      expect(spot.months.reduce((days, month) => days + month.days, 0)).toBe(365);
      for (const light of spot.months) {
        const same = months.find(({ month }) => Number(month.slice(5)) === light.month)!;
        // The same hours summed in another order: rounding only.
        expect(light.lightOnCell_Wh_m2_day).toBeCloseTo(same.lightOnCell_Wh_m2_day, 6);
        expect(light.ghi_Wh_m2_day).toBeCloseTo(same.ghi_Wh_m2_day, 6);
        const parts = light.beam_Wh_m2_day + light.sky_Wh_m2_day + light.reflected_Wh_m2_day;
        expect(parts).toBeCloseTo(light.lightOnCell_Wh_m2_day, 6);
        expect(light.shareOfOpen).toBeCloseTo(same.lightOnCell_Wh_m2_day / same.ghi_Wh_m2_day, 9);
      }
    }
  });

  it('puts winter in the middle of the months, and the axes above every value', () => {
    expect(bySpot.months).toEqual([7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]);
    const { axes, spots, trials } = bySpot;
    for (const month of spots.flatMap((spot) => spot.months)) {
      expect(month.lightOnCell_Wh_m2_day).toBeLessThanOrEqual(axes.light_Wh_m2_day);
      expect(month.ghi_Wh_m2_day).toBeLessThanOrEqual(axes.light_Wh_m2_day);
    }
    const nights = trials.flatMap((trial) => trial.months).map((month) => month.failedNights);
    expect(Math.max(...nights)).toBe(axes.failedNights_month);
  });

  it('finds nothing that limits the lawn but lid and front at low sun, and the missing sun north of the house', () => {
    const [lawn, north] = bySpot.spots;
    expect(lawn).toMatchObject({ limitedBy: 'cover', hasSurroundings: false });
    // The lawn is its own open reference: same cell, same tilt, turned to the noon sun.
    expect(lawn!.limits).toMatchObject({ lightShare: 1, skyShare: 1, beamShare: 1 });
    expect(lawn!.dullShare).toBe(1);
    // Both under a lid, tilted alike.
    expect(north!.limits!.coverShare).toBe(lawn!.limits!.coverShare);
    expect(north).toMatchObject({ limitedBy: 'beam', hasSurroundings: true });
    expect(north!.limits).toMatchObject({ beamShare: 0, beam_h: 0, sunshine_h: lawn!.limits!.sunshine_h });
    // Dull days lose only what the house hides of the sky, all days the beam too.
    expect(north!.dullShare).toBeGreaterThan(north!.limits!.lightShare + 0.1);
    expect(north!.picture!.months[11]!.beam_h).toBeLessThan(lawn!.picture!.months[11]!.beam_h);
  });

  it('tests the claim: in full shade the capacitor is not fully charged on an ordinary winter day', () => {
    const [lawn, , north] = bySpot.trials;
    expect(north!.claim).toMatchObject({ inWinter: 'fails', monthsKnown: 12 });
    expect(north!.claim.winter.full).toBeLessThan(lawn!.claim.winter.full);
    expect(lawn!.claim.year.evenings).toBe(365);
  });

  it('refuses two scenarios of the same name with USAGE', () => {
    const twice = () => compareRuns([run, { ...run }], 'spot');
    expect(twice).toThrow(InputProblem);
    expect(twice).toThrow(/USAGE.*command line[\s\S]*two scenarios named invented-garden/);
  });

  it('compares scenarios of different weather, and says so', () => {
    const same = compareRuns([run, renamed()], 'spot');
    expect(same).toMatchObject({ sameWeather: true, differences: [] });
    const other = renamed({ weather: { ...run.weather, sha256: 'ab'.repeat(32) } });
    const differing = compareRuns([run, other], 'spot');
    expect(differing.sameWeather).toBe(false);
    expect(differing.differences[0]).toMatch(/^DIFFERENT WEATHER .*other 8760 h .*abababab/);
    expect(differing.tables.map(({ trials }) => trials.length)).toEqual([4, 4]);
  });

  it('says so where promises, places or starts differ', () => {
    const { promise, site } = run.scenario;
    const differing = renamed({
      scenario: {
        ...run.scenario,
        promise: { ...promise, hours: 4 },
        site: { ...site, albedo: 0.3 },
        start: { capacitor_V: 1 },
      },
    });
    const { differences } = compareRuns([run, differing], 'lamp');
    expect(differences.map((sentence) => sentence.slice(0, 15))).toEqual([
      'DIFFERENT PLACE',
      'DIFFERENT PROMI',
      'DIFFERENT START',
    ]);
  });
});
