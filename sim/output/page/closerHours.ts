import type { CivilDay } from '../../statistics/civilHours.ts';
import type { HourlyTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { daysOf, worstWinter } from '../figures/worstWinter.ts';
import type { PackedDays } from './packedColumn.ts';

/** The hours behind the closer look at a capacitor: those of its worst winter, in the order of the season. */
export interface CloserHours {
  /** Start of the record, UTC milliseconds. */
  start_ms: number;
  days: PackedDays;
  cutoff_V: number;
  rated_V: number;
  /** At the end of each hour. */
  capacitor_V: Float64Array;
  /** NaN where there is no light to reach anything with. */
  reachable_V: Float64Array;
  lightOnCell_W_m2: Float64Array;
}

/** The hours of a trial for a closer look at its capacitor. */
export function closerHours(
  trial: HourlyTrial,
  { site, days, lamp }: Pick<BlockSetting, 'site' | 'days' | 'lamp'>,
): CloserHours {
  const shown = daysOf(worstWinter(trial, site.latitude_deg).nights, days);
  const { capacitorEnd_V, reachable_V } = trial.year.columns;
  return {
    start_ms: trial.light.start_ms,
    days: packedDays(shown),
    cutoff_V: lamp.cutoff_V,
    rated_V: lamp.rated_V,
    capacitor_V: hoursOf(capacitorEnd_V, shown),
    reachable_V: hoursOf(reachable_V, shown).map((volts) => (volts > 0 ? volts : Number.NaN)),
    lightOnCell_W_m2: hoursOf(trial.light.planeOfArray_W_m2, shown),
  };
}

/** How days stand in time, for the page. */
export function packedDays(days: readonly CivilDay[]): PackedDays {
  return {
    from: days.map(({ from }) => from),
    hours: days.map(({ from, to }) => to - from),
    offset_min: days.map(({ offset_min }) => offset_min),
  };
}

/** The hours of days, one day after the other. */
export function hoursOf(column: Float64Array, days: readonly CivilDay[]): Float64Array {
  const hours = new Float64Array(days.reduce((count, { from, to }) => count + to - from, 0));
  let next = 0;
  for (const { from, to } of days) {
    hours.set(column.subarray(from, to), next);
    next += to - from;
  }
  return hours;
}
