import type { SpotLight } from '../spot/spotLight.ts';
import { type SpotParams, spotParams } from '../spot/spotParams.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { longestEvening } from './longestEvening.ts';
import { soundNights, type TrialTerms } from './runTrial.ts';
import { type SingleChange, type Stated, singleChanges, type TrialSetting } from './singleChanges.ts';
import type { Change, NightTrial } from './Trial.ts';

const MOST_CHANGES = 12;
/** A change that leaves less than this share of the short hours helps, though as many nights fail; one with more is worse. */
const ENOUGH = 0.9;
const TOO_MUCH = 1.1;
/** Changes that move the short hours of a record by less are none. */
const NOTHING_H = 0.05;

/** What a failed trial's changes are taken from. */
export interface ChangeGrounds {
  stated: Stated;
  terms: TrialTerms;
  elsewhere: TrialSetting['elsewhere'];
  /** Makes the light of a changed spot. */
  lightOf: (spot: SpotParams) => SpotLight;
}

/**
 * What single changes do to the failed nights of a trial, each by running the whole record again with it.
 *
 * in: trial that failed; grounds
 * out: at most 12, for every change that makes a sound lamp and does something; fewest failed nights first, then fewest
 *   short hours, then least cost
 */
export function changes(trial: NightTrial, { stated, terms, elsewhere, lightOf }: ChangeGrounds): Change[] {
  const before = sumOf(trial);
  const ran = new Map<Stated, NightTrial | undefined>();
  const runWith = (tried: Stated) => {
    if (!ran.has(tried)) ran.set(tried, nightsWith(tried, stated, trial, terms, lightOf));
    return ran.get(tried);
  };
  const keeps = (tried: Stated) => {
    const after = runWith(tried);
    return after !== undefined && sumOf(after).failedNights === 0;
  };
  const snowOnLid = trial.light.snow !== undefined && trial.light.snow.lid_h > 0;
  const setting = { site: terms.site, elsewhere, snowOnLid };
  const evening = longestEvening(stated, keeps);
  const tried = [...(evening ? [evening] : []), ...singleChanges(stated, setting)];
  return tried
    .flatMap((change): Change[] => {
      const after = runWith(change.stated);
      if (after === undefined) return [];
      const told = changeOf(change, before, sumOf(after));
      return isWorthTelling(told, change) ? [told] : [];
    })
    .sort(
      (a, b) =>
        a.failedNights - b.failedNights ||
        a.short_h - b.short_h ||
        (a.cost ?? Number.MAX_VALUE) - (b.cost ?? Number.MAX_VALUE),
    )
    .slice(0, MOST_CHANGES);
}

function sumOf({ nights, statistics }: NightTrial) {
  const { failedNights, short_h } = overWinters(statistics.winters);
  const aboveRated_h = nights.reduce((sum, night) => sum + night.aboveRated_h, 0);
  return { failedNights, short_h, aboveRated_h };
}

type Sum = ReturnType<typeof sumOf>;

function changeOf({ change, detail, cost }: SingleChange, before: Sum, after: Sum): Change {
  const { failedNights, short_h } = after;
  const fewer = before.failedNights - failedNights;
  const better = fewer > 0 || (fewer === 0 && short_h < ENOUGH * before.short_h);
  const worse = fewer < 0 || (fewer === 0 && short_h > TOO_MUCH * before.short_h);
  const overcharged = after.aboveRated_h > before.aboveRated_h + 1;
  return {
    change,
    detail: overcharged ? `${detail}; the capacitor then needs a limiter, it goes above its rating` : detail,
    failedNightsBefore: before.failedNights,
    failedNights,
    shortBefore_h: before.short_h,
    short_h,
    effect: failedNights === 0 ? 'mends' : better ? 'helps' : worse ? 'worse' : 'no-better',
    cost,
  };
}

function isWorthTelling(told: Change, { tentative }: SingleChange): boolean {
  const { failedNights, failedNightsBefore, short_h, shortBefore_h, effect } = told;
  const idle = failedNights === failedNightsBefore && Math.abs(short_h - shortBefore_h) <= NOTHING_H;
  return !idle && !(tentative && (effect === 'worse' || effect === 'no-better'));
}

/** The trial with a change; undefined where the changed lamp or spot cannot be. */
function nightsWith(
  tried: Stated,
  before: Stated,
  trial: NightTrial,
  terms: TrialTerms,
  lightOf: (spot: SpotParams) => SpotLight,
): NightTrial | undefined {
  const spot = spotParams(tried.spot, () => {});
  if (spot === undefined) return undefined;
  const light = tried.spot === before.spot ? trial.light : lightOf(spot);
  return soundNights(tried.lamp, light, { ...terms, promise: tried.promise });
}
