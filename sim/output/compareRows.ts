import { fixed } from '../common/csvText.ts';
import type { ComparedTrial, Comparison } from '../trial/Comparison.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';
import { priceCell } from './moneyWords.ts';
import { shortened } from './shownWidth.ts';
import { type Paint, type TextColumn, textTable } from './textTable.ts';
import { comparedName } from './words.ts';

const VERDICTS: Readonly<Record<ComparedTrial['verdict'], string>> = {
  kept: 'kept',
  broken: 'BROKEN',
  'nothing-promised': 'none',
  'no-whole-winter': 'unjudged',
};

const LONGEST_NAME = 38;

/** 'single on lawn', with the scenario where there are several. */
export function trialName({ lamp, spot, scenario }: ComparedTrial, comparison: Comparison): string {
  return shortened(`${lamp} on ${comparedName(comparison, scenario, spot)}`, LONGEST_NAME);
}

/**
 * What tells the trials of a comparison apart, a row each, as lines for the terminal.
 *
 * in: comparison; trials of it, in their order; style
 */
export function compareRows(
  comparison: Comparison,
  trials: readonly ComparedTrial[],
  style: Paint,
): string[] {
  const several = trials.some(({ winters }) => winters > 1);
  const priced = trials.some(({ money }) => money.price !== undefined);
  const columns: TextColumn<ComparedTrial>[] = [
    { heading: ['', ''], cell: (trial) => trialName(trial, comparison) },
    { heading: ['', 'promise'], cell: ({ verdict }) => VERDICTS[verdict] },
    ...(several
      ? [
          {
            heading: ['winters', 'kept'] as const,
            cell: ({ odds, winters }: ComparedTrial) => `${odds?.kept ?? '-'} of ${winters}`,
          },
        ]
      : []),
    { heading: ['failed', 'nights'], cell: ({ failedNights, nights }) => `${failedNights} of ${nights}` },
    { heading: ['of them', 'out'], cell: ({ failedOut }) => String(failedOut) },
    { heading: ['hours', 'short'], cell: ({ short_h }) => fixed(short_h, 1) },
    { heading: ['nights', 'in a row'], cell: ({ longestSpell }) => String(longestSpell?.nights ?? '-') },
    { heading: ['least J in', 'a morning'], cell: (trial) => fixed(trial.smallestReserve_J, 0) || '-' },
    { heading: ['lm h', 'a year'], cell: ({ lightGiven_lm_h }) => fixed(lightGiven_lm_h, 0) || '-' },
    ...(priced
      ? [
          {
            heading: ['', 'price'] as const,
            cell: ({ money }: ComparedTrial) => priceCell(money) || '-',
          },
        ]
      : []),
  ];
  const painted = { broken: style.bad, kept: style.good } as Record<string, (text: string) => string>;
  return textTable(columns, trials, style.columns).map((line, k) => {
    const paint = painted[trials[k - 2]?.verdict ?? ''] ?? ((text: string) => text);
    return paint(line);
  });
}

const CLAIMED: Readonly<Record<ChargeClaim['inWinter'], string>> = {
  holds: 'holds',
  'in-part': 'holds in part',
  fails: 'fails',
  unknown: 'no winter on record',
};

/** For which trials the claim of full charge holds in winter, in a sentence. */
export function claimInShort(comparison: Comparison, trials: readonly ComparedTrial[]): string {
  const kinds = (Object.keys(CLAIMED) as (keyof typeof CLAIMED)[]).flatMap((kind) => {
    const names = trials
      .filter(({ claim }) => claim.inWinter === kind)
      .map((trial) => trialName(trial, comparison));
    return names.length === 0 ? [] : [`${CLAIMED[kind]}: ${names.join(', ')}`];
  });
  return `Claim tested (common practice, no source), that an oversized cell in full shade fills its capacitor on an ordinary winter day: ${kinds.join('; ')}.`;
}
