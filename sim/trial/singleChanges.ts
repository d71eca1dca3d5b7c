import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { SpotSection } from '../spot/schema.ts';
import type { Site } from '../sun/Site.ts';
import { lampChanges } from './lampChanges.ts';
import { spotChanges } from './spotChanges.ts';

/** A trial as the scenario states it: what a single change alters one part of. */
export interface Stated {
  lamp: SettledSection;
  spot: SpotSection;
  promise: PromiseSection;
}

/** A change and what is stated with it. */
export interface SingleChange {
  change: string;
  detail: string;
  /** 0 where nothing is bought; undefined where a price is not given. */
  cost?: number | undefined;
  /** Nobody would do it for nothing: told only where it helps. */
  tentative?: boolean | undefined;
  stated: Stated;
}

/** What a trial stands in. */
export interface TrialSetting {
  site: Site;
  /** The scenario's other spots. */
  elsewhere: readonly { name: string; section: SpotSection }[];
  /** Whether snow lies on the lid at times. */
  snowOnLid: boolean;
}

/**
 * The single changes that a maker would try on a lamp that fails, those that apply to it, in the order of their effort.
 *
 * in: stated, the trial as the scenario states it; setting it stands in
 */
export function singleChanges(stated: Stated, setting: TrialSetting): SingleChange[] {
  return [...spotChanges(stated, setting), ...lampChanges(stated)];
}
