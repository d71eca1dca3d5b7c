import { least, max, sum } from 'd3-array';
import { dateText } from '../../common/civilTime.ts';
import type { Problem } from '../../common/InputProblem.ts';
import { anniversary, HOUR_MS, hoursText, utcText, wholeYearsIn } from '../../common/time.ts';
import { darkSeason, winterOf } from '../../sun/NightCalendar.ts';
import { flagsOf, type Stretch, stretchesOf } from '../quality/stretchesOf.ts';
import { type FilledColumns, LARGEST_FILLED_SHARE, type MonthFill } from './fillGaps.ts';

/** The stretch of a record that a run goes over: hours from <= i < to, each with its light. */
export interface UsableStretch {
  from: number;
  to: number;
  /** Whole years; 0 where the stretch is a part of one. */
  years: number;
  /** Names of the winters whose dark months are all there, where there is no whole year. */
  winters: string[];
  /** Which of these it is, in words. */
  what: string;
  filled_h: number;
  /** Hours of the record before and after that are left out. */
  leading_h: number;
  trailing_h: number;
  /** Why these and no others, and what they are good for, in words. */
  reason: string;
}

/** What may be done to make a record long. */
export interface StretchOptions {
  /** Take months of which much is filled. */
  acceptFilled: boolean;
  latitude_deg: number;
}

/** Less than this is not a day. */
const LEAST_H = 24;
/** Fewer days than this tell of a lamp or a spot, and of no season. */
const SHORT_DAYS = 28;

/**
 * The stretch of a record that a run goes over: the most whole years (8760 hours each, 8784 with a 29 February) from
 * its first hour or the start of any month; without one the stretch that holds the dark months of most winters, then
 * the longest. Of equally many years those with the fewest filled hours are taken, then those that begin with July north
 * of the equator or January south of it, so that no winter is cut, then the earliest.
 *
 * in: record, filled; options
 * out: the stretch, or the problem that there is none, with the months that stand in the way; also where only the
 *   acceptance of much filled months would give a winter, for a winter is what is asked
 */
export function usableStretch(
  record: FilledColumns,
  options: StretchOptions,
): UsableStretch | { problem: Problem } {
  const barred = record.months.filter((month) => isBarred(month, options.acceptFilled));
  const best = bestOf(record, barred, options.latitude_deg);
  const all = options.acceptFilled ? undefined : usableStretch(record, { ...options, acceptFilled: true });
  const accepted = all === undefined || 'problem' in all ? undefined : all;
  if (best === undefined || (accepted !== undefined && !tells(best) && tells(accepted))) {
    return { problem: problemOf(record, barred, options) };
  }
  const more = accepted === undefined ? '' : moreAccepted(best, accepted);
  return { ...best, reason: `${reasonOf(best, record.start_ms, barred)}${more}` };
}

/** A record whole, whatever its length. */
export function wholeRecord(record: FilledColumns): UsableStretch {
  const { start_ms, count } = record;
  const found = foundOf(record, { from: 0, to: count }, wholeYearsIn(start_ms, count));
  return { ...found, reason: 'the whole file, as the scenario states' };
}

type Found = Omit<UsableStretch, 'reason'>;

/** A verdict on a winter may rest on it. */
function tells({ years, winters }: Found): boolean {
  return years > 0 || winters.length > 0;
}

/** Of all stretches between what is missing or barred, and of all whole years within these, the one to take. */
function bestOf(
  record: FilledColumns,
  barred: readonly MonthFill[],
  latitude_deg: number,
): Found | undefined {
  const { start_ms, count, months } = record;
  const winterBegins = latitude_deg < 0 ? '01' : '07';
  const closed = flagsOf(count, (i) => Number.isNaN(record.ghi_W_m2[i]!));
  for (const { state, from, to } of barred) if (state === 'much filled') closed.fill(1, from, to);
  const parts = stretchesOf(count, (i) => closed[i] === 0).filter(({ from, to }) => to - from >= LEAST_H);
  const runs = parts.flatMap((part) =>
    months
      .filter(({ from }) => part.from <= from && from < part.to)
      .map(({ month, from }) => {
        const after = (years: number): number =>
          (anniversary(start_ms + from * HOUR_MS, years) - start_ms) / HOUR_MS;
        let years = 0;
        while (after(years + 1) <= part.to) years++;
        return { from, to: after(years), years, cuts: month.endsWith(winterBegins) ? 0 : 1 };
      }),
  );
  const most = max(runs, ({ years }) => years) ?? 0;
  if (most > 0) {
    const best = runs
      .filter(({ years }) => years === most)
      .map((run) => ({ cuts: run.cuts, found: foundOf(record, run, most) }));
    return least(best, (a, b) => a.found.filled_h - b.found.filled_h || a.cuts - b.cuts)!.found;
  }
  const dark = latitude_deg < 0 ? 'April to September' : 'October to March';
  const found = parts.map((part) =>
    foundOf(record, part, 0, wintersWithin(part, start_ms, latitude_deg), dark),
  );
  return least(found, (a, b) => b.winters.length - a.winters.length || b.to - b.from - (a.to - a.from));
}

/** in: winters, names of those whose dark months are all there, where there is no whole year; dark, what these months are */
function foundOf(
  record: FilledColumns,
  { from, to }: Stretch,
  years: number,
  winters: string[] = [],
  dark = '',
): Found {
  const days = Math.floor((to - from) / 24);
  const what =
    years > 0
      ? yearsText(years)
      : winters.length > 0
        ? `the dark months (${dark}) of winter ${winters.join(', ')}`
        : `${days === 1 ? 'one day' : `${days} days`}, no whole winter`;
  const filled_h = sum(record.filled.subarray(from, to));
  return { from, to, years, winters, what, filled_h, leading_h: from, trailing_h: record.count - to };
}

/** The winters whose dark months lie within hours that begin at start_ms. */
function wintersWithin({ from, to }: Stretch, start_ms: number, latitude_deg: number): string[] {
  const [begins_ms, ends_ms] = [start_ms + from * HOUR_MS, start_ms + to * HOUR_MS];
  const winters: string[] = [];
  for (let year = new Date(begins_ms).getUTCFullYear(); ; year++) {
    const { from_ms, to_ms } = darkSeason(year, latitude_deg);
    if (to_ms > ends_ms) return winters;
    if (from_ms >= begins_ms) winters.push(winterOf(dateText(from_ms), latitude_deg));
  }
}

function moreAccepted(best: Found, accepted: Found): string {
  if (accepted.years > best.years) return `; ${yearsText(accepted.years)} with --accept-filled`;
  return accepted.years === 0 && accepted.winters.length > best.winters.length
    ? `; the dark months of ${accepted.winters.join(', ')} with --accept-filled`
    : '';
}

function isBarred(month: MonthFill, acceptFilled: boolean): boolean {
  return month.state === 'absent' || (month.state === 'much filled' && !acceptFilled);
}

function reasonOf(best: Found, start_ms: number, barred: readonly MonthFill[]): string {
  const from = utcText(start_ms + best.from * HOUR_MS);
  const to = utcText(start_ms + best.to * HOUR_MS);
  const cut = [
    ...(best.leading_h > 0 ? [`${hoursText(best.leading_h)} before`] : []),
    ...(best.trailing_h > 0 ? [`${hoursText(best.trailing_h)} after`] : []),
  ];
  const left = cut.length === 0 ? 'that is the whole record' : `${cut.join(' and ')} are left out`;
  const walls = barred.length === 0 ? '' : `; not usable: ${monthNames(barred)}`;
  const filled = best.filled_h === 0 ? 'nothing of it filled' : `${hoursText(best.filled_h)} of it filled`;
  return `${best.what}, ${from} to ${to}, ${filled}; ${left}${walls}${goodFor(best)}`;
}

/** What a stretch that is no whole year serves for. */
function goodFor({ from, to, years, winters }: Found): string {
  if (years > 0) return '';
  if (winters.length > 0) return '; enough for a verdict on those nights';
  return to - from < 24 * SHORT_DAYS
    ? '; too short for a season: good for holding a log of the lamp or the light on a spot against, and for a look at single nights'
    : '; good for a look at its nights, not for the verdict of a winter';
}

function yearsText(years: number): string {
  return years === 1 ? 'one whole year' : `${years} whole years`;
}

function problemOf(
  { start_ms, count }: FilledColumns,
  barred: readonly MonthFill[],
  options: StretchOptions,
): Problem {
  const much = barred.filter((month) => month.state === 'much filled');
  const absent = barred.filter((month) => month.state === 'absent');
  const percent = LARGEST_FILLED_SHARE * 100;
  const parts = [
    ...(absent.length > 0 ? [`absent: ${monthNames(absent)}`] : []),
    ...(much.length > 0 ? [`more than ${percent} percent of the daylight filled: ${monthNames(much)}`] : []),
  ];
  const detail = parts.length > 0 ? `, ${parts.join('; ')}` : '';
  const helps = !options.acceptFilled && much.length > 0;
  return {
    code: absent.length === 0 && much.length > 0 ? 'WEATHER_GAP' : 'WEATHER_PARTIAL_YEAR',
    got: `${count} hours from ${utcText(start_ms)} to ${utcText(start_ms + count * HOUR_MS)}${detail}`,
    expected: helps ? 'months with their light measured' : 'a day at least with its light measured',
    fix: helps
      ? '--accept-filled takes them (in a scenario, weather.accept_filled: true), or take other months: --from and --to.'
      : 'add the hours that lack; absent months are never made up.',
  };
}

/** Months, runs of them joined: '2013-01 to 2013-05, 2014-08'. */
function monthNames(months: readonly MonthFill[]): string {
  const firsts = months.filter(({ from }, i) => months[i - 1]?.to !== from);
  const lasts = months.filter(({ to }, i) => months[i + 1]?.from !== to);
  return firsts
    .map(({ month }, k) => (month === lasts[k]!.month ? month : `${month} to ${lasts[k]!.month}`))
    .join(', ');
}
