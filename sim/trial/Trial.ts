import type { NightRow } from '../night/nightLedger.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { TrialStatistics } from '../statistics/TrialStatistics.ts';
import type { YearResult } from '../year/simulateYear.ts';
import type { Change } from './Change.ts';
import type { OutcomeSpread } from './OutcomeSpread.ts';

/** One lamp in one spot under one weather record: the unit of every result. */
export interface Trial {
  spot: string;
  lamp: string;
  light: SpotLight;
  year: YearResult;
  nights: NightRow[];
  statistics: TrialStatistics;
  /** Sentences a maker must see: capacitor above its rated voltage, hours beyond the boost's formula, a year that does not close, ... */
  flags: string[];
  /** What single changes would do, where the promise is broken; best first. */
  changes: Change[];
  /** The outcome over what the readings of the lamp leave open; only where it was asked for. */
  spread?: OutcomeSpread;
}
