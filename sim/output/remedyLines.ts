import { fixed } from '../common/csvText.ts';
import type { Remedy } from '../trial/Remedy.ts';
import { wrapText } from './wrapText.ts';

/** A change that leaves less than this share of the dark hours helps, though as many nights fail. */
const ENOUGH = 0.9;

/**
 * What single changes would do to a trial that failed, for the terminal: those that help, a line each, then those that
 * do not, in one sentence.
 *
 * in: remedies, best first
 * out: lines of at most 100 characters; none without remedies
 */
export function remedyLines(remedies: readonly Remedy[]): string[] {
  if (remedies.length === 0) return [];
  const helps = remedies.filter(
    (remedy) =>
      remedy.failureNights < remedy.failureNightsBefore || remedy.dark_h < ENOUGH * remedy.darkBefore_h,
  );
  const others = remedies.filter((remedy) => !helps.includes(remedy));
  const lines = helps.flatMap((remedy) => {
    const cost = remedy.cost === undefined || remedy.cost === 0 ? '' : `; costs ${fixed(remedy.cost, 2)}`;
    return wrapText(`- ${remedy.change}: ${nights(remedy)} (${remedy.detail}${cost})`, 4, 6);
  });
  const idle = others.map((remedy) => `${remedy.change} (${remedy.failureNights})`).join(', ');
  return [
    `  One change at a time, the whole record run again with each (failure nights now ${remedies[0]!.failureNightsBefore}):`,
    ...lines,
    ...(idle === '' ? [] : wrapText(`- no help by itself: ${idle}`, 4, 6)),
  ];
}

function nights(remedy: Remedy): string {
  if (remedy.failureNights === 0) return 'none left';
  return `${remedy.failureNights} left, dark ${fixed(remedy.dark_h, 0)} instead of ${fixed(remedy.darkBefore_h, 0)} h`;
}
