import type { Change, HourlyTrial } from '../Trial.ts';
import type { Refused, Turn } from './LiveRun.ts';

/** The trials of a run, run again as they were or with some values turned. */
export interface LiveTrials {
  /** A trial, without what single changes would do. */
  trial(spot: string, lamp: string, turns?: readonly Turn[]): HourlyTrial | Refused;
  /** What single changes would do to it, best first; none where it keeps its promise. */
  changes(spot: string, lamp: string, turns?: readonly Turn[]): Change[] | Refused;
}
