import type { SkyPicture } from '../../spot/skyPicture.ts';
import { type CivilDay, civilHours } from '../../statistics/civilHours.ts';
import { decisiveTrials, hasHours } from '../../trial/decisiveTrials.ts';
import type { HourlyTrial, RunResult, Trial } from '../../trial/Trial.ts';
import { type BlockSetting, blockSetting } from '../BlockSetting.ts';

/** A trial of a run that is drawn. */
export interface DrawnTrial {
  /** In the run, from 1. */
  place: number;
  /** Its own on the page. */
  id: string;
  trial: HourlyTrial;
  setting: BlockSetting;
}

/**
 * The trials of a run that are drawn, in their order: of many the decisive ones, and only those that have their hours.
 *
 * in: run; skies, the sky from the spots that have one, by name
 * out: trials, and the civil dates of the record
 */
export function drawnTrials(
  run: RunResult,
  skies: ReadonlyMap<string, SkyPicture>,
): { trials: DrawnTrial[]; days: CivilDay[] } {
  const [first] = run.trials;
  if (first === undefined) return { trials: [], days: [] };
  const days = civilHours(first.light.start_ms, first.light.count, run.scenario.site.timeZone);
  const trials = decisiveTrials(run)
    .filter(hasHours)
    .map((trial) => {
      const setting = blockSetting(run, trial, days, skies.get(trial.spot));
      return { place: placeOf(run, trial), id: trialId(run, trial), trial, setting };
    });
  return { trials, days };
}

function placeOf({ trials }: RunResult, trial: Trial): number {
  return trials.indexOf(trial) + 1;
}

/** A trial's own name on the page of its run: 'trial-1' of the first. */
export function trialId(run: RunResult, trial: Trial): string {
  return `trial-${placeOf(run, trial)}`;
}
