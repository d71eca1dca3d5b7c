import { plural } from './words.ts';

const WORDS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/**
 * A count within a sentence: in words up to twelve.
 *
 * in: count, a whole number from 0 on
 * @example countWord(5); // => 'five'
 */
export function countWord(count: number): string {
  return WORDS[count] ?? String(count);
}

const QUARTERS = ['', 'a quarter', 'a half', 'three quarters'];

/**
 * Hours within a sentence, in words where they are whole or in quarters.
 *
 * in: hours, above 0
 * @example hourWords(6.5); // => 'six and a half hours'
 */
export function hourWords(hours: number): string {
  const quarters = Math.round(hours * 4);
  const inQuarters = quarters > 0 && Math.abs(quarters - hours * 4) < 1e-9;
  if (hours < 1) {
    if (!inQuarters) return minuteWords(hours);
    return quarters === 2 ? 'half an hour' : `${QUARTERS[quarters]!} of an hour`;
  }
  if (!inQuarters) return `${Math.round(hours * 100) / 100} hours`;
  const [whole, rest] = [countWord(Math.floor(quarters / 4)), QUARTERS[quarters % 4]!];
  return rest === ''
    ? `${whole} ${plural(hours, 'hour')}`
    : `${whole} and ${rest.replace('quarters', 'quarter')} hours`;
}

/**
 * Hours to a quarter of an hour, few of them in minutes.
 *
 * in: hours, above 0
 * @example aboutHours(5.3); // => 'about five and a quarter hours'
 */
export function aboutHours(hours: number): string {
  return `about ${hours < 0.2 ? minuteWords(hours) : hourWords(Math.round(hours * 4) / 4)}`;
}

function minuteWords(hours: number): string {
  const minutes = Math.max(1, Math.round(hours * 60));
  return `${countWord(minutes)} ${plural(minutes, 'minute')}`;
}

const SHARES: readonly [share: number, words: string][] = [
  [0.1, 'a tenth of the usual'],
  [0.2, 'a fifth of the usual'],
  [0.25, 'a quarter of the usual'],
  [1 / 3, 'a third of the usual'],
  [0.5, 'half of the usual'],
  [2 / 3, 'two thirds of the usual'],
  [0.75, 'three quarters of the usual'],
  [0.9, 'nine tenths of the usual'],
  [1, 'as much as usual'],
];

/**
 * A share of what is usual in words, the nearest of a few.
 *
 * in: share, from 0 on
 * @example shareWords(0.31); // => 'about a third of the usual'
 */
export function shareWords(share: number): string {
  if (share < 0.05) return 'hardly any of the usual';
  const nearest = SHARES.reduce((best, each) =>
    Math.abs(each[0] - share) < Math.abs(best[0] - share) ? each : best,
  );
  return `about ${nearest[1]}`;
}
