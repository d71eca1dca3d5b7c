import { InputProblem } from '../../common/InputProblem.ts';
import { EVENING_STEP_MIN, evening, statedMinutes } from '../../trial/longestEvening.ts';
import { answerOf, type FindGrounds } from './answerOf.ts';
import type { Found } from './Found.ts';

/** Until dawn whenever dusk may be: no promise is longer. */
const DAY_MIN = 24 * 60;
/** One in six is looked at first: by the hour. */
const STRIDE = 6;

/**
 * The longest promise that the lamp keeps on every night, in hours after its beginning, the schedule lasting as long.
 *
 * in: grounds
 * throws: SCENARIO_CONFLICT where the promise lasts until a time of the clock
 * valid: no more is forgiven of an evening shorter than the stated one than the same share of it
 */
export function findPromise(grounds: FindGrounds): Found {
  const { lean, spot, lamp, scenario } = grounds;
  const asStated = lean.premises(spot, lamp);
  const { promise } = scenario;
  requireHours(grounds, 'promise');
  return answerOf(
    {
      find: 'promise',
      what: 'promise',
      key: 'promise.hours',
      unit: 'h',
      end: 'greatest',
      stated: promise.hours,
      step: { size: EVENING_STEP_MIN / 60, unit: 'h' },
      stride: STRIDE,
      values: Array.from({ length: DAY_MIN / EVENING_STEP_MIN }, (_, k) => ((k + 1) * EVENING_STEP_MIN) / 60),
      premises: (hours) => ({ ...asStated, ...evening({ ...asStated, promise }, hours * 60) }),
    },
    grounds,
  );
}

/** Refuses a promise whose length is another on every night, where its hours are asked for. */
export function requireHours({ scenario }: FindGrounds, find: string): void {
  const { promise } = scenario;
  if (statedMinutes(promise) !== undefined) return;
  throw new InputProblem({
    code: 'SCENARIO_CONFLICT',
    field: 'promise.until',
    got: `--find ${find} of a promise until ${promise.until}`,
    expected: 'a promise of hours after its beginning, which may be more or fewer',
    fix: 'state promise.hours in place of promise.until.',
  });
}
