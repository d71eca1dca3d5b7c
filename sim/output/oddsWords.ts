import { fixed } from '../common/csvText.ts';
import type { Chance, WinterOdds } from '../statistics/WinterOdds.ts';
import { plural } from './words.ts';

/** A median count of nights, which may lie between two: '6', '6 or 7'. */
export function nightCount(median: number): string {
  const [below, above] = [Math.floor(median), Math.ceil(median)];
  return below === above ? String(below) : `${below} or ${above}`;
}

/** The failed nights of a typical winter: 'about 6 failed nights'. */
export function typicalWords(typical: number): string {
  if (typical === 0) return 'no failed night';
  return `${typical < 1 ? '' : 'about '}${nightCount(typical)} failed ${plural(typical, 'night')}`;
}

/** The lower end of a chance as whole winters of a hundred, downwards: '5'. What is 5.0 but for its last bits stays 5. */
export function atLeast({ low }: Pick<Chance, 'low'>): string {
  return String(Math.floor(100 * low + 1e-6));
}

/** An interval of a chance as whole winters of a hundred, outwards: '5 to 38'. in: chance; and, what stands between the two */
export function ofHundred(chance: Pick<Chance, 'low' | 'high'>, and = ' to '): string {
  const [from, to] = [atLeast(chance), String(Math.ceil(100 * chance.high - 1e-6))];
  return from === to ? from : `${from}${and}${to}`;
}

/** Who made an interval, and how sure it is: 'Wilson, 90 percent'. */
export function surety({ method, confidence }: Chance): string {
  return `${method}, ${fixed(100 * confidence, 0)} percent`;
}

/**
 * What winters come to as a sample, in a sentence without its full stop: typical, worst in ten, worst, and the chance.
 *
 * in: odds
 */
export function oddsWords({ failedNights, winters, kept, chance }: WinterOdds): string {
  const { typical, worst, worstInTen } = failedNights;
  const count = `${kept === winters ? 'all' : `${kept} of`} ${winters} winters`;
  const promise = `keeps its promise in ${count}, so in ${ofHundred(chance)} of a hundred (${surety(chance)})`;
  if (worst === 0) return `no failed night; ${promise}`;
  const tenth = worstInTen === undefined ? '' : ` about ${fixed(worstInTen, 0)} in the worst winter in ten,`;
  return `${typicalWords(typical)} in a typical winter,${tenth} ${worst} in the worst of ${winters}; ${promise}`;
}
