import type { PromiseSection } from '../lamp/schedule/schema.ts';

/**
 * The promise as a sentence, with the threshold that 'lit' stands for and the tolerance.
 *
 * in: promise, as the scenario states it
 * out: one sentence
 */
export function promiseWords(promise: PromiseSection): string {
  const from = promise.from === 'dusk' ? 'from dusk' : `from ${promise.from}`;
  const until = promise.until === undefined ? '' : ` until ${promise.until}`;
  const hours = promise.hours === undefined ? '' : ` for ${promise.hours} h`;
  return (
    `Promise: at least ${promise.least_lumen} lm (that is what "lit" means below) ${from}${hours}${until}, every ` +
    `night; more than ${promise.tolerance_h} h dark is a failed night.`
  );
}
