import { fixed } from '../common/csvText.ts';
import { significant } from '../common/Estimate.ts';
import { log10 } from '../common/elementary/log.ts';
import { MONTH_NAMES } from '../common/time.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { NightCause } from '../night/nightLedger.ts';
import type { ShortHours, WinterTotals } from '../statistics/TrialStatistics.ts';
import type { Comparison } from '../trial/Comparison.ts';
import type { RunResult } from '../trial/Trial.ts';

/**
 * A word in the number that a count asks for.
 *
 * in: count; word, in the singular
 * out: the word, with an s unless the count is 1
 * @example plural(2, 'night'); // => 'nights'
 */
export function plural(count: number, word: string): string {
  return count === 1 ? word : `${word}s`;
}

/** What must be said first of a run that was interrupted; nothing of a whole one. */
export function partialWords({ partial }: Pick<RunResult, 'partial'>): string[] {
  if (partial === undefined) return [];
  const { completeTrials, allTrials } = partial;
  return [
    `IN PART: interrupted when ${completeTrials} of ${allTrials} trials were complete; this speaks of these alone.`,
  ];
}

/** A sentence begun: its first letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The short name of a month, 1 to 12. */
export function monthName(month: number): string {
  return MONTH_NAMES[month - 1]!.slice(0, 3);
}

/**
 * A civil date, or a span of them, in words.
 *
 * in: from and to, 'YYYY-MM-DD' (to is from for one day); withYear, whether years are named
 * out: words such as '18 to 22 December' or '28 December 2024 to 3 January 2025'
 * @example spokenDates('2025-12-18', '2025-12-22'); // => '18 to 22 December'
 */
export function spokenDates(from: string, to = from, withYear = false): string {
  const [first, last] = [parts(from), parts(to)];
  const end = `${last.day} ${last.month}${withYear ? ` ${last.year}` : ''}`;
  if (from === to) return end;
  if (first.month === last.month && first.year === last.year) return `${first.day} to ${end}`;
  const year = withYear && first.year !== last.year ? ` ${first.year}` : '';
  return `${first.day} ${first.month}${year} to ${end}`;
}

function parts(date: string): { day: number; month: string; year: string } {
  const month = MONTH_NAMES[Number(date.slice(5, 7)) - 1];
  if (month === undefined) throw new Error(`not a civil date: ${date}`);
  return { day: Number(date.slice(8, 10)), month, year: date.slice(0, 4) };
}

/**
 * A civil date, or a span of them, in few characters, without the year.
 *
 * in: from and to, 'YYYY-MM-DD'
 * @example shortDates('2025-12-29', '2026-01-03'); // => '29 Dec-3 Jan'
 */
export function shortDates(from: string, to = from): string {
  const [first, last] = [parts(from), parts(to)];
  const end = `${last.day} ${last.month.slice(0, 3)}`;
  if (from === to) return end;
  return first.month === last.month
    ? `${first.day}-${end}`
    : `${first.day} ${first.month.slice(0, 3)}-${end}`;
}

/**
 * A number with three significant digits, or as many as asked for; with a power of ten where it is very small or large.
 *
 * in: value; digits
 * @example shortNumber(0.012345); // => '0.0123'
 */
export function shortNumber(value: number, digits = 3): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-3 || size >= 1e6) return value.toExponential(digits - 1);
  const decimals = Math.max(0, digits - 1 - Math.floor(log10(size)));
  return value.toFixed(decimals);
}

/**
 * The promise as a sentence, with the threshold that 'lit' stands for and the tolerance.
 *
 * in: promise, as the scenario states it
 * out: one sentence
 */
export function promiseWords(promise: PromiseSection): string {
  const from = promise.from === 'dusk' ? 'from dusk' : `from ${promise.from}`;
  const until = promise.until === undefined ? '' : ` until ${promise.until}`;
  const hours = promise.hours === undefined ? '' : ` for ${promisedTime(promise.hours)}`;
  return (
    `Promise: at least ${promisedLight(promise.least_lumen)} (that is what "lit" means below) ${from}${hours}${until}, every ` +
    `night; more than ${promisedTime(promise.tolerance_h)} short of it is a failed night.`
  );
}

/**
 * A promised time with its unit: hours that were stated in minutes are told in minutes.
 *
 * in: hours, up to 24
 * @example promisedTime(0.25); // => '0.25 h'
 * @example promisedTime(0.166666666667); // => '10 min'
 */
export function promisedTime(hours: number): string {
  const isShort = Math.abs(Math.round(hours * 100) / 100 - hours) < 1e-9;
  return isShort ? `${Number(hours.toFixed(2))} h` : `${significant(hours * 60, hours < 1 ? 3 : 4)} min`;
}

/**
 * A promised light with its unit.
 *
 * in: light, lm
 * @example promisedLight(0.333333333333); // => '0.333 lm'
 */
export function promisedLight(light_lm: number): string {
  return `${significant(light_lm, 3)} lm`;
}

/**
 * How many failed nights were dim, and how many out.
 *
 * in: totals, of a winter or several
 * @example dimOrOut({ failedNights: 9, failedOut: 0 }); // => 'dim on 9, out on none'
 */
export function dimOrOut({
  failedNights,
  failedOut,
}: Pick<WinterTotals, 'failedNights' | 'failedOut'>): string {
  const on = (nights: number) => (nights === 0 ? 'none' : String(nights));
  return `dim on ${on(failedNights - failedOut)}, out on ${on(failedOut)}`;
}

/**
 * What short hours were, after their number.
 *
 * in: hours
 * @example dimAndOut({ short_h: 3, dim_h: 2, out_h: 1 }); // => '2.0 h dim and 1.0 h out'
 */
export function dimAndOut({ dim_h, out_h }: ShortHours): string {
  const [dim, out] = [fixed(dim_h, 1), fixed(out_h, 1)];
  if (out === '0.0') return 'all of it dim';
  return dim === '0.0' ? 'all of it out' : `${dim} h dim and ${out} h out`;
}

/** Why a night was short, in words that end a sentence. */
export const CAUSE_WORDS: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  snow: 'snow lay on the lid',
  'still-empty': 'the capacitor was still empty from the night before',
  'ran-empty': 'the capacitor ran empty',
  'switched-on-late': 'it switched on late',
  'too-dim': 'it was too dim',
  'locked-out': 'it had stopped at its cut-off before and not started again',
  'not-scheduled': 'its schedule leaves promised time out',
};

/** The same, in few words for counts. */
export const CAUSE_NAMES: Readonly<Record<NightCause, string>> = {
  none: 'no cause',
  snow: 'snow on the lid',
  'still-empty': 'still empty from the night before',
  'ran-empty': 'ran empty',
  'switched-on-late': 'switched on late',
  'too-dim': 'too dim',
  'locked-out': 'still stopped from before',
  'not-scheduled': 'not scheduled',
};

/**
 * The name of a spot, a lamp or a column in a comparison: with its scenario before it where there are several.
 *
 * in: comparison; scenario, its name; name
 */
export function comparedName({ scenarios }: Comparison, scenario: string, name: string): string {
  return scenarios.length === 1 ? name : `${scenario} ${name}`;
}

/** What every result carries for whoever goes and builds the lamp, short enough to be read; summary.json has it in full. */
export const CAUTION_LINES = [
  'Care: a shorted capacitor gives hundreds of amperes; discharge it, mind its rated volts and poles.',
  'Jars heat, resin needs air, water a drain; decoration, not for stairs or exits; local rules first.',
] as const;

/** Which of the made winters is shown, where no weather on file is; '' otherwise. */
export function shownWords({ shown }: Record<string, string>): string {
  return shown === undefined ? '' : `Below: ${shown}.`;
}
