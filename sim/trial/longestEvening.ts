import type { SingleChange, Stated } from './singleChanges.ts';

const STEP_MIN = 10;
/** The longest evening that stands in for one until dawn. */
const LONG_MIN = 14 * 60;

/**
 * The longest evening that would be kept every night, in steps of 10 minutes, promise and schedule alike: by search. Of
 * a short evening no more is forgiven than the same share of it: a lamp that never shines keeps none.
 *
 * in: stated, the trial as the scenario states it; keeps, whether a changed trial keeps every night: it is asked some
 *   five times
 * out: undefined where not even ten minutes would be kept, the promise lasts until a time of the clock, or all of it is
 *   forgiven
 * valid: takes it that a shorter evening is never harder to keep
 */
export function longestEvening(stated: Stated, keeps: (tried: Stated) => boolean): SingleChange | undefined {
  const { hours, until } = stated.promise;
  if (hours === undefined && until !== undefined && until !== 'dawn') return undefined;
  const most_min = hours === undefined ? LONG_MIN : hours * 60;
  const forgiven = (stated.promise.tolerance_h * 60) / most_min;
  if (forgiven >= 1) return undefined;
  // Kept for `low` steps, not for `high`.
  let low = 0;
  let found: Stated | undefined;
  let high = Math.ceil(most_min / STEP_MIN);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const tried = lasting(stated, middle * STEP_MIN);
    const tolerance_h = (middle * STEP_MIN * forgiven) / 60;
    if (keeps({ ...tried, promise: { ...tried.promise, tolerance_h } })) {
      low = middle;
      found = tried;
    } else high = middle;
  }
  if (found === undefined) return undefined;
  const minutes = low * STEP_MIN;
  const before = hours === undefined ? 'until dawn' : spoken(hours * 60);
  return {
    change: 'a shorter evening',
    detail: `${spoken(minutes)} instead of ${before}, promised and lit: the longest that is kept every night`,
    cost: 0,
    stated: found,
  };
}

function lasting(stated: Stated, minutes: number): Stated {
  const { promise, lamp } = stated;
  const { until: _promisedUntil, ...promised } = promise;
  const { until: _litUntil, before_dawn_h: _morning, ...schedule } = lamp.schedule;
  const hours = minutes / 60;
  return {
    ...stated,
    promise: { ...promised, hours },
    lamp: { ...lamp, schedule: { ...schedule, hours } },
  };
}

function spoken(minutes: number): string {
  const whole_min = Math.round(minutes);
  const rest = whole_min % 60;
  if (whole_min < 60) return `${rest} min`;
  return `${Math.floor(whole_min / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}
