import { stretchesWhere } from '../common/stretchesWhere.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SingleChange, Stated } from './singleChanges.ts';

/** Evenings are tried in steps of so many minutes. */
export const EVENING_STEP_MIN = 10;
/** The longest evening that stands in for one until dawn. */
const LONG_MIN = 14 * 60;

/**
 * The longest evening that would be kept every night, in steps of 10 minutes, promise and schedule alike: by search.
 *
 * in: stated, the trial as the scenario states it; keeps, whether a changed trial keeps every night: it is asked some
 *   five times
 * out: undefined where not even ten minutes would be kept, the promise lasts until a time of the clock, or all of it is
 *   forgiven
 * valid: takes it that a shorter evening is never harder to keep
 */
export function longestEvening(stated: Stated, keeps: (tried: Stated) => boolean): SingleChange | undefined {
  const { hours } = stated.promise;
  const stated_min = statedMinutes(stated.promise);
  if (stated_min === undefined || stated.promise.tolerance_h * 60 >= stated_min) return undefined;
  const last = Math.ceil(stated_min / EVENING_STEP_MIN);
  const evenings = new Map<number, Stated>();
  const lackAt = (place: number): number => {
    // Nothing is always kept, and all of it is not: else nothing would be changed.
    if (place === 0 || place === last) return place;
    const { promise, ...tried } = evening(stated, place * EVENING_STEP_MIN);
    evenings.set(place, { ...tried, promise: { ...promise, tolerance_h: stated.promise.tolerance_h } });
    return keeps({ ...tried, promise }) ? 0 : 1;
  };
  const { holding } = stretchesWhere(last, last, lackAt);
  const longest = holding[0]!.to;
  const found = evenings.get(longest);
  if (found === undefined) return undefined;
  const minutes = longest * EVENING_STEP_MIN;
  const before = hours === undefined ? 'until dawn' : spoken(hours * 60);
  return {
    change: 'a shorter evening',
    detail: `${spoken(minutes)} instead of ${before}, promised and lit: the longest always kept`,
    cost: 0,
    stated: found,
  };
}

/** Length of a promise in minutes, one until dawn as the longest night; undefined where it lasts until a time of the clock. */
export function statedMinutes({ hours, until }: PromiseSection): number | undefined {
  if (hours !== undefined) return hours * 60;
  return until === undefined || until === 'dawn' ? LONG_MIN : undefined;
}

/**
 * A trial of a shorter or longer evening, promise and schedule alike. Of a shorter one no more is forgiven than the same
 * share of it: a lamp that never shines keeps none; of a longer one as much as stated.
 *
 * in: stated, its promise not until a time of the clock; minutes
 */
export function evening(stated: Stated, minutes: number): Stated {
  const { promise, lamp } = stated;
  const { until: _promisedUntil, ...promised } = promise;
  const { until: _litUntil, before_dawn_h: _morning, ...schedule } = lamp.schedule;
  const hours = minutes / 60;
  const share = Math.min(1, minutes / statedMinutes(promise)!);
  return {
    ...stated,
    promise: { ...promised, hours, tolerance_h: share * promise.tolerance_h },
    lamp: { ...lamp, schedule: { ...schedule, hours } },
  };
}

function spoken(minutes: number): string {
  const whole_min = Math.round(minutes);
  const rest = whole_min % 60;
  if (whole_min < 60) return `${rest} min`;
  return `${Math.floor(whole_min / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}
