import type { SpotLight } from '../spot/spotLight.ts';
import { type SpotParams, spotParams } from '../spot/spotParams.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { runNights, soundLamp, type TrialTerms } from './runTrial.ts';
import { type SingleChange, type Stated, singleChanges } from './singleChanges.ts';
import type { Change, NightTrial } from './Trial.ts';

/**
 * What single changes do to the failed nights of a trial, each by running the whole record again with it.
 *
 * in: trial that failed; stated, as the scenario has it; terms of the trial; lightOf, makes the light of a changed spot
 * out: one entry for every change that makes a sound lamp, fewest failed nights first, then fewest short hours, then
 *   least cost
 */
export function changes(
  trial: NightTrial,
  stated: Stated,
  terms: TrialTerms,
  lightOf: (spot: SpotParams) => SpotLight,
): Change[] {
  const before = overWinters(trial.statistics.winters);
  const found = singleChanges(stated, terms.site).flatMap((change): Change[] => {
    const after = runWith(change, stated, trial, terms, lightOf);
    if (after === undefined) return [];
    const { failedNights, short_h } = overWinters(after.statistics.winters);
    return [
      {
        change: change.change,
        detail: change.detail,
        failedNightsBefore: before.failedNights,
        failedNights,
        shortBefore_h: before.short_h,
        short_h,
        cost: change.cost,
      },
    ];
  });
  return found.sort(
    (a, b) =>
      a.failedNights - b.failedNights ||
      a.short_h - b.short_h ||
      (a.cost ?? Number.MAX_VALUE) - (b.cost ?? Number.MAX_VALUE),
  );
}

/** The trial with a change; undefined where the changed lamp or spot cannot be. */
function runWith(
  { stated }: SingleChange,
  before: Stated,
  trial: NightTrial,
  terms: TrialTerms,
  lightOf: (spot: SpotParams) => SpotLight,
): NightTrial | undefined {
  const lamp = soundLamp(stated.lamp);
  const spot = spotParams(stated.spot, () => {});
  if (lamp === undefined || spot === undefined) return undefined;
  const light = stated.spot === before.spot ? trial.light : lightOf(spot);
  return runNights(lamp, light, { ...terms, promise: stated.promise });
}
