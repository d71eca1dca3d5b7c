import type { Knobs } from '../../trial/live/LiveRun.ts';
import type { Trial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import type { DrawnTrial } from '../figures/drawnTrials.ts';
import { element } from '../figures/element.ts';
import { stripAgain } from '../figures/nightStrip.ts';
import { answerBlock } from './answerBlock.ts';
import { tryPanel } from './live/tryPanel.ts';
import { stripId } from './overview.ts';
import { listMarkup, paragraphMarkup } from './tableMarkup.ts';
import { type TrialBlock, trialBlocks } from './trialBlocks.ts';

/**
 * A trial's part of the page, whole: the answer in one screen, then why.
 *
 * in: drawn, the trial, its id and its setting; knobs, what may be turned of it, undefined where nothing can run again
 * out: markup
 */
export function trialPart({ id, trial, setting }: Omit<DrawnTrial, 'place'>, knobs?: Knobs): string {
  const turning = knobs && tryPanel(id, knobs, trial, setting.site.latitude_deg);
  return sectionMarkup(id, trial, trialInside(trialBlocks(id, trial, setting), turning));
}

/**
 * The part of a trial that is not drawn: its answer, its nights as a strip.
 *
 * in: id; trial; setting, of which neither days nor sky are needed
 * out: markup, hidden by the style sheet until it is chosen
 */
export function briefPart(id: string, trial: Trial, setting: BlockSetting): string {
  const words =
    'This trial was not drawn in full when the page was made. Every night of it is in nights.csv; a scenario with fewer spots or lamps draws it.';
  const blocks = [
    { block: 'answer' as const, markup: answerBlock(id, trial, setting) },
    { block: 'notes' as const, markup: listMarkup(trial.flags, 'flags', 'Please note') },
    { block: 'nights' as const, markup: `${stripAgain(stripId(id))}${paragraphMarkup(words, 'promise')}` },
  ];
  return sectionMarkup(id, trial, trialInside(blocks), '');
}

/** brief: '' where the trial is not drawn. */
function sectionMarkup(id: string, trial: Trial, inside: string, brief?: string): string {
  const attributes = {
    class: 'trial',
    id,
    'data-verdict': trial.statistics.verdict,
    'data-brief': brief,
    'aria-labelledby': `${id}-name`,
  };
  return element('section', attributes, inside);
}

/** What makes up the answer; all else is why. */
const ON_SCREEN: readonly TrialBlock[] = ['answer', 'notes', 'mends', 'nights', 'send'];

/**
 * What stands within a trial's part of the page: its blocks in their places, also those that have nothing to say yet, and
 * a place for what may be turned above the nights.
 *
 * in: blocks; turning, what turns the trial's values
 * out: markup
 */
function trialInside(blocks: readonly { block: TrialBlock; markup: string }[], turning = ''): string {
  const div = ({ block, markup }: (typeof blocks)[number]) => `<div data-block="${block}">${markup}</div>`;
  const [answer = '', notes = '', mends = '', nights = '', send = ''] = ON_SCREEN.map((name) =>
    blocks
      .filter(({ block }) => block === name)
      .map(div)
      .join(''),
  );
  const reasons = blocks.filter(({ block }) => !ON_SCREEN.includes(block)).map(div);
  return [
    `<div class="screen">${answer}${notes}<div class="beside">${mends}<div class="turning">${turning}</div></div><div class="year">${nights}${send}</div></div>`,
    `<div class="reasons">${reasons.join('\n')}</div>`,
  ].join('\n');
}
