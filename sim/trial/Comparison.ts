import type { Scenario } from '../scenario/Scenario.ts';
import type { CoverParams } from '../spot/cover/coverParams.ts';
import type { SkyPicture } from '../spot/skyPicture.ts';
import type { SpotLimits } from '../spot/spotLimits.ts';
import type { MonthStatistics, Verdict, WinterTotals } from '../statistics/TrialStatistics.ts';
import type { WinterOdds } from '../statistics/WinterOdds.ts';
import type { Site } from '../sun/Site.ts';
import type { ChargeClaim } from './chargeClaim.ts';
import type { LampMoney } from './lampMoney.ts';
import type { LightMonth } from './monthlyLight.ts';
import type { RunResult } from './Trial.ts';

/** What stands side by side: spots (a table for each lamp) or lamps (a table for each spot). */
export const COMPARED_BY = ['spot', 'lamp'] as const;
export type ComparedBy = (typeof COMPARED_BY)[number];

export interface ComparedScenario
  extends Pick<Scenario, 'name' | 'file' | 'sha256' | 'seed' | 'promise' | 'questions'>,
    Pick<Site, 'latitude_deg' | 'longitude_deg' | 'timeZone'>,
    Pick<RunResult, 'weather'> {}

/** What holds a spot back most, 'cover' being cover and cell front together; 'season' where nothing there takes a tenth: short days and a low sun. */
export type LimitedBy = 'beam' | 'sky' | 'snow' | 'cover' | 'dim-light' | 'leakage' | 'season' | 'unknown';

export interface ComparedSpot {
  scenario: string;
  spot: string;
  /** What lies over the cell. */
  cover: CoverParams['kind'] | 'none';
  /** Calendar months in the order of the comparison. */
  months: LightMonth[];
  /** The spot against the same cell unshaded; undefined where the light was logged on the cell. */
  limits: SpotLimits | undefined;
  /** Share of the unshaded light that is left on the duller half of the days of the same months; NaN as for limits. */
  dullShare: number;
  limitedBy: LimitedBy;
  picture: SkyPicture | undefined;
  /** Whether obstacles or a horizon stand around it. */
  hasSurroundings: boolean;
}

/** A calendar month over the same winters; nights are those with a promise. */
export interface ComparedMonth
  extends Pick<MonthStatistics, 'nights' | 'failedNights' | 'short_h' | 'lightGiven_lm_h'> {
  month: number;
}

/** What a lamp makes of the light of its spot in the two darkest months. Shares are 0 to 1. */
export interface LampInSpot {
  /** Hours with at least 1 W/m2 on the cell. */
  daylight_h: number;
  /** Of these: the reachable voltage stayed below the driver's cut-off. */
  reachableBelowCutoff_h: number;
  /** Of these: the capacitor stood above the reachable voltage all hour, so that nothing could flow in, and was not fully charged. */
  reachableBelowCapacitor_h: number;
  /**
   * Of the energy the cell could give at its best point: what stayed unharvested because the capacitor stood too high for the
   * light, in hours so dim that they could not have filled it however long they lasted.
   */
  unharvestedShare: number;
  /** Of the energy that came from the cell: what leaked away. */
  leakageShare: number;
}

/**
 * One lamp in one spot; counts are over the whole winters of its record, or its part winter where none is whole, but
 * for the light given, which is a mean winter's.
 */
export interface ComparedTrial extends WinterTotals {
  scenario: string;
  spot: string;
  lamp: string;
  verdict: Verdict;
  winters: number;
  odds?: WinterOdds;
  months: ComparedMonth[];
  inSpot: LampInSpot;
  claim: ChargeClaim;
  money: LampMoney;
  flags: string[];
}

/** A table: what all its columns share, and which trials they are. */
export interface ComparedTable {
  /** The lamp's name where spots stand side by side, the spot's where lamps do. */
  name: string;
  /** Places in `trials`. */
  trials: number[];
}

/** Highest values of all, so that pictures of several spots can stand on the same axes. */
export interface CommonAxes {
  light_Wh_m2_day: number;
  failedNights_month: number;
  short_h_month: number;
  lightGiven_lm_h_month: number;
}

/** Spots and lamps of one or several scenarios, held against each other. */
export interface Comparison {
  by: ComparedBy;
  scenarios: ComparedScenario[];
  southern: boolean;
  sameWeather: boolean;
  /** Where the scenarios differ in more than spots and lamps; must be said before anything else. */
  differences: string[];
  /** Calendar months that all months below follow. */
  months: number[];
  axes: CommonAxes;
  spots: ComparedSpot[];
  trials: ComparedTrial[];
  /** Places in `trials` of the decisive ones, which are drawn and shown in full; all of a small comparison. */
  decisive: number[];
  tables: ComparedTable[];
  cautions: string[];
}
