import { greatest, groups, max } from 'd3-array';
import { median } from 'simple-statistics';
import type { NightRow } from '../night/nightLedger.ts';
import { type OverWinters, overWinters } from './overWinters.ts';
import type { NightStatistics } from './TrialStatistics.ts';
import { inSeason } from './winterStatistics.ts';

/** What can be said of the nights of a trial to whoever does not build lamps. */
export interface YearFacts {
  totals: OverWinters;
  /** One year, and no more; one of several, the others held in part; what there is, none being whole; several. */
  extent: 'year' | 'one-of-several' | 'part' | 'several-winters';
  /** First and last night that is counted. */
  from: string;
  to: string;
  /** Whether every night counted has a promise; whether one has fewer hours promised than the longest. */
  allPromised: boolean;
  cutShort: boolean;
  /** The most that a night that was kept is short; 0 where none is. */
  forgiven_h: number;
  failed: FailedNights;
  /** Energy above the cut-off at an ordinary dawn; NaN where it is not known. */
  usualReserve_J: number;
}

/** The failed nights of a trial, of several winters those of the worst. */
interface FailedNights {
  /** In the order of the season. */
  nights: readonly string[];
  out: number;
  bySnow: number;
  /** Nights of the season from the first of them to the last. */
  span: number;
  /** The one with most short hours. */
  worst: NightRow | undefined;
}

const ROUNDING_H = 1 / 60;

/**
 * What the nights of a trial come to, for sentences without words of the bench.
 *
 * in: trial, its nights and what winterStatistics made of them; latitude_deg, north positive
 */
export function yearFacts(
  { nights, statistics }: { nights: readonly NightRow[]; statistics: NightStatistics },
  latitude_deg: number,
): YearFacts {
  const totals = overWinters(statistics.winters);
  const counted = new Set(totals.winters.map(({ winter }) => winter));
  const rows = groups(nights, ({ winter }) => winter)
    .filter(([winter]) => counted.has(winter))
    .flatMap(([winter, own]) => inSeason(winter, own, latitude_deg))
    .filter(({ complete }) => complete);
  const promised = rows.filter(({ outcome }) => outcome !== 'nothing-promised');
  const longest_h = max(promised, ({ promised_h }) => promised_h) ?? 0;
  const extent = extentOf(statistics, totals);
  const worst = totals.worst?.winter;
  const reserves = promised
    .map(({ reserveDawn_J }) => reserveDawn_J)
    .filter((left_J) => !Number.isNaN(left_J));
  return {
    totals,
    extent,
    from: rows[0]?.night ?? '',
    to: rows.at(-1)?.night ?? '',
    allPromised: promised.length === rows.length,
    cutShort: promised.some(({ promised_h }) => promised_h < longest_h - ROUNDING_H),
    forgiven_h: max(promised, ({ outcome, short_h }) => (outcome === 'kept' ? short_h : 0)) ?? 0,
    failed: failedNights(extent === 'several-winters' ? rows.filter(({ winter }) => winter === worst) : rows),
    usualReserve_J: reserves.length === 0 ? Number.NaN : median(reserves),
  };
}

function extentOf({ winters, odds }: NightStatistics, totals: OverWinters): YearFacts['extent'] {
  if (odds !== undefined) return 'several-winters';
  if (!totals.winters.every(({ extent }) => extent === 'whole')) return 'part';
  return winters.length === 1 ? 'year' : 'one-of-several';
}

function failedNights(rows: readonly NightRow[]): FailedNights {
  const places = rows.flatMap(({ outcome }, place) => (outcome === 'failed' ? [place] : []));
  const failed = places.map((place) => rows[place]!);
  return {
    nights: failed.map(({ night }) => night),
    out: failed.filter(({ wentOut }) => wentOut).length,
    bySnow: failed.filter(({ cause }) => cause === 'snow').length,
    span: failed.length === 0 ? 0 : places.at(-1)! - places[0]! + 1,
    // To the second, as winterStatistics has it.
    worst: greatest(failed, ({ short_h }) => Math.round(short_h * 3600)),
  };
}
