import { fixed } from '../common/csvText.ts';
import type { Change } from '../trial/Change.ts';
import { wrapText } from './wrapText.ts';

/** A change that leaves less than this share of the short hours helps, though as many nights fail. */
const ENOUGH = 0.9;

/**
 * What single changes would do to a trial that failed, for the terminal: those that help, a line each, then those that
 * do not, in one sentence.
 *
 * in: changes, best first
 * out: lines of at most 100 characters; none without changes
 */
export function changeLines(changes: readonly Change[]): string[] {
  if (changes.length === 0) return [];
  const helps = changes.filter(
    (change) =>
      change.failedNights < change.failedNightsBefore || change.short_h < ENOUGH * change.shortBefore_h,
  );
  const others = changes.filter((change) => !helps.includes(change));
  const lines = helps.flatMap((change) => {
    const cost = change.cost === undefined || change.cost === 0 ? '' : `; costs ${fixed(change.cost, 2)}`;
    return wrapText(`- ${change.change}: ${nights(change)} (${change.detail}${cost})`, 4, 6);
  });
  const idle = others.map((change) => `${change.change} (${change.failedNights})`).join(', ');
  return [
    `  One change at a time, the whole record run again with each (failed nights now ${changes[0]!.failedNightsBefore}):`,
    ...lines,
    ...(idle === '' ? [] : wrapText(`- no help by itself: ${idle}`, 4, 6)),
  ];
}

function nights(change: Change): string {
  if (change.failedNights === 0) return 'none left';
  return `${change.failedNights} left, dark ${fixed(change.short_h, 0)} instead of ${fixed(change.shortBefore_h, 0)} h`;
}
