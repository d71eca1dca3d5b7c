import type { Problem } from '../../common/InputProblem.ts';
import { HOUR_MS } from '../../common/time.ts';
import { utcText } from '../../tables/civilMs.ts';
import { anniversary } from '../checkWholeYears.ts';
import type { FilledColumns } from './fillGaps.ts';
import { LARGEST_FILLED_SHARE, type MonthFill } from './monthFills.ts';

/** The whole years a record can give: hours from <= i < to. */
export interface WholeYears {
  from: number;
  to: number;
  years: number;
  filled_h: number;
  /** Hours of the record before and after that are left out. */
  leading_h: number;
  trailing_h: number;
  /** Why these and no others, in words. */
  reason: string;
}

/** What may be done to make years whole. */
export interface WholeYearsOptions {
  /** Take months of which much is filled. */
  acceptFilled: boolean;
  latitude_deg: number;
}

/**
 * The longest run of whole years in a record (8760 hours each, 8784 with a 29 February): from its first hour or the
 * start of any month. Of equally long runs the one with the fewest filled hours is taken, then one that begins with
 * July north of the equator or January south of it, so that no winter is cut, then the earliest.
 *
 * in: record, filled; options
 * out: the years, or the problem that there is none, with the months that stand in the way
 */
export function wholeYears(
  record: Pick<FilledColumns, 'columns' | 'filled' | 'months'>,
  options: WholeYearsOptions,
): WholeYears | { problem: Problem } {
  const { start_ms, count } = record.columns;
  const filledBefore = prefixSums(record.filled);
  const barred = record.months.filter((month) => isBarred(month, options.acceptFilled));
  const startMonth = options.latitude_deg < 0 ? '01' : '07';
  let best: WholeYears | undefined;
  let bestStart: MonthFill | undefined;
  for (const month of record.months) {
    if (barred.includes(month)) continue;
    const from = month.from;
    const wall = barred.find((other) => other.from > from)?.from ?? count;
    const years = yearsWithin(start_ms + from * HOUR_MS, start_ms + wall * HOUR_MS);
    if (years === 0 || years < (best?.years ?? 0)) continue;
    const to = (anniversary(start_ms + from * HOUR_MS, years) - start_ms) / HOUR_MS;
    const filled_h = filledBefore[to]! - filledBefore[from]!;
    const begins = month.month.endsWith(startMonth);
    const bestBegins = bestStart?.month.endsWith(startMonth) ?? false;
    const better =
      best === undefined ||
      years > best.years ||
      filled_h < best.filled_h ||
      (filled_h === best.filled_h && begins && !bestBegins);
    if (!better) continue;
    best = { from, to, years, filled_h, leading_h: from, trailing_h: count - to, reason: '' };
    bestStart = month;
  }
  if (best === undefined) return { problem: problemOf(record, barred, options) };
  const accepted = options.acceptFilled ? best : wholeYears(record, { ...options, acceptFilled: true });
  const more =
    'years' in accepted && accepted.years > best.years
      ? `; ${accepted.years} years with --accept-filled`
      : '';
  best.reason = `${reasonOf(best, start_ms, barred)}${more}`;
  return best;
}

function isBarred(month: MonthFill, acceptFilled: boolean): boolean {
  return month.state === 'absent' || (month.state === 'much filled' && !acceptFilled);
}

function yearsWithin(from_ms: number, to_ms: number): number {
  let years = 0;
  while (anniversary(from_ms, years + 1) <= to_ms) years++;
  return years;
}

function prefixSums(flags: Uint8Array): Uint32Array {
  const sums = new Uint32Array(flags.length + 1);
  for (let i = 0; i < flags.length; i++) sums[i + 1] = sums[i]! + flags[i]!;
  return sums;
}

function reasonOf(best: WholeYears, start_ms: number, barred: readonly MonthFill[]): string {
  const from = utcText(start_ms + best.from * HOUR_MS);
  const to = utcText(start_ms + best.to * HOUR_MS);
  const years = best.years === 1 ? 'one whole year' : `${best.years} whole years`;
  const cut = [
    best.leading_h > 0 ? `${hoursText(best.leading_h)} before` : '',
    best.trailing_h > 0 ? `${hoursText(best.trailing_h)} after` : '',
  ].filter((text) => text !== '');
  const left = cut.length === 0 ? 'that is the whole record' : `${cut.join(' and ')} are left out`;
  const walls = barred.length === 0 ? '' : `; not usable: ${monthNames(barred)}`;
  const filled = best.filled_h === 0 ? 'nothing of it filled' : `${hoursText(best.filled_h)} of it filled`;
  return `${years}, ${from} to ${to}, ${filled}; ${left}${walls}`;
}

function problemOf(
  record: Pick<FilledColumns, 'columns' | 'months'>,
  barred: readonly MonthFill[],
  options: WholeYearsOptions,
): Problem {
  const { start_ms, count } = record.columns;
  const much = barred.filter((month) => month.state === 'much filled');
  const absent = barred.filter((month) => month.state === 'absent');
  const percent = LARGEST_FILLED_SHARE * 100;
  const parts = [
    absent.length > 0 ? `absent: ${monthNames(absent)}` : '',
    much.length > 0 ? `more than ${percent} percent of the daylight filled: ${monthNames(much)}` : '',
  ].filter((text) => text !== '');
  const detail = parts.length > 0 ? `, ${parts.join('; ')}` : '';
  const helps = !options.acceptFilled && much.length > 0;
  return {
    code: absent.length === 0 && much.length > 0 ? 'WEATHER_GAP' : 'WEATHER_PARTIAL_YEAR',
    got: `${count} hours from ${utcText(start_ms)} to ${utcText(start_ms + count * HOUR_MS)}${detail}`,
    expected: 'twelve months running with their light measured',
    fix: helps
      ? '--accept-filled takes them (in a scenario, weather.accept_filled: true), or take other years.'
      : 'add the months that lack, or take other years; absent months are never made up.',
  };
}

function hoursText(hours: number): string {
  return `${hours} ${hours === 1 ? 'hour' : 'hours'}`;
}

/** Months, runs of them joined: '2013-01 to 2013-05, 2014-08'. */
function monthNames(months: readonly MonthFill[]): string {
  const runs: MonthFill[][] = [];
  for (const month of months) {
    const run = runs[runs.length - 1];
    if (run !== undefined && run[run.length - 1]!.to === month.from) run.push(month);
    else runs.push([month]);
  }
  return runs
    .map((run) => (run.length === 1 ? run[0]!.month : `${run[0]!.month} to ${run[run.length - 1]!.month}`))
    .join(', ');
}
