import { answerOf, type FindGrounds, PERCENT_STEPS, percentSteps } from './answerOf.ts';
import type { Found } from './Found.ts';

/** Shares of the promised light that are looked at. */
const [LEAST, MOST] = [1 / 1000, 100];

/**
 * The least light that every night still has through all of the promise but what is forgiven: the most lumens that could
 * be promised. What is promised moves nothing in the lamp, so that less is never harder to keep, and one search by halves finds it.
 *
 * in: grounds
 */
export function findLight(grounds: FindGrounds): Found {
  const { lean, spot, lamp } = grounds;
  const asStated = lean.premises(spot, lamp);
  const { promise } = asStated;
  const values = percentSteps(promise.least_lumen, LEAST, MOST);
  return answerOf(
    {
      ...PERCENT_STEPS,
      find: 'light',
      what: 'promised light',
      key: 'promise.least_lumen',
      unit: 'lm',
      end: 'greatest',
      stated: promise.least_lumen,
      stride: values.length - 1,
      values,
      premises: (least_lumen) => ({ ...asStated, promise: { ...promise, least_lumen } }),
    },
    grounds,
  );
}
