import type { DrawnTrial } from '../figures/drawnTrials.ts';
import { trialBlocks } from './trialBlocks.ts';

/**
 * A trial's part of the page, made of its blocks; also of those that have nothing to say, which may when a part is turned.
 *
 * in: drawn, the trial, its id and its setting
 * out: markup
 */
export function trialPart({ id, trial, setting }: DrawnTrial): string {
  return [
    `<section class="trial" id="${id}" data-verdict="${trial.statistics.verdict}" aria-labelledby="${id}-name">`,
    ...trialBlocks(id, trial, setting).map(
      ({ block, markup }) => `<div data-block="${block}">${markup}</div>`,
    ),
    '</section>',
  ].join('\n');
}
