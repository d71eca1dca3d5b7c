import type { SingleChange, Stated } from './singleChanges.ts';

const STEP_MIN = 10;
/** The longest evening that stands in for one until dawn. */
const LONG_MIN = 14 * 60;
/** Light is promised to two digits. */
const LIGHT_STEPS = 50;

/**
 * The most of a promise that would be kept every night, found by search: the longest evening, in steps of 10 minutes,
 * with the schedule as long; and, the evening as it is, the most light.
 *
 * in: stated, the trial as the scenario states it; keeps, whether a changed trial keeps every night: it is asked some
 *   six times for each
 * out: what would be kept; nothing where not even ten minutes, or a fiftieth of the light, would
 * valid: takes it that a shorter or a dimmer promise is never harder to keep
 */
export function keptPromises(stated: Stated, keeps: (tried: Stated) => boolean): SingleChange[] {
  return [longestEvening(stated, keeps), mostLight(stated, keeps)].filter((found) => found !== undefined);
}

/** Greatest of 1 to most - 1 that holds, 0 where none does. */
function greatest(most: number, holds: (count: number) => boolean): number {
  let low = 0;
  let high = most;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function longestEvening(stated: Stated, keeps: (tried: Stated) => boolean): SingleChange | undefined {
  const { hours, until } = stated.promise;
  // Until a time of the clock, how long it lasts goes by the season.
  if (hours === undefined && until !== undefined && until !== 'dawn') return undefined;
  const whole_min = hours === undefined ? LONG_MIN : hours * 60;
  const steps = greatest(Math.ceil(whole_min / STEP_MIN), (count) =>
    keeps(lasting(stated, count * STEP_MIN)),
  );
  if (steps === 0) return undefined;
  const minutes = steps * STEP_MIN;
  const before = hours === undefined ? 'until dawn' : spoken(hours * 60);
  return {
    change: 'a shorter evening',
    detail: `${spoken(minutes)} instead of ${before}, promised and lit: the longest that is kept every night`,
    cost: 0,
    stated: lasting(stated, minutes),
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
  const rest = Math.round(minutes % 60);
  return `${Math.floor(minutes / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}

function mostLight(stated: Stated, keeps: (tried: Stated) => boolean): SingleChange | undefined {
  const { least_lumen } = stated.promise;
  const lumens = (count: number) => Number(((least_lumen * count) / LIGHT_STEPS).toPrecision(2));
  const dimmer = (count: number): Stated => ({
    ...stated,
    promise: { ...stated.promise, least_lumen: lumens(count) },
  });
  const steps = greatest(LIGHT_STEPS, (count) => keeps(dimmer(count)));
  // A promise of next to nothing is none.
  if (steps < LIGHT_STEPS / 5) return undefined;
  return {
    change: 'less light promised',
    detail: `${lumens(steps)} lm instead of ${least_lumen} lm: the most that is kept every night`,
    cost: 0,
    stated: dimmer(steps),
  };
}
