import { greatest, least, min, quantile } from 'd3-array';
import { median } from 'simple-statistics';
import { dateText } from '../common/civilTime.ts';
import { compensatedSum } from '../common/numeric.ts';
import { DAY_MS } from '../common/time.ts';
import type { NightRow } from '../night/nightLedger.ts';
import { darkSeason } from '../sun/NightCalendar.ts';
import type { Fortnight, Spell, WinterExtent, WinterStatistics } from './TrialStatistics.ts';

/**
 * What each winter came to, in the order of time.
 *
 * A winter is whole where the record holds every one of its nights: 1 July to 30 June north of the equator,
 * 1 January to 31 December south of it, or the one joined year, all of it. A verdict may rest on its dark months alone.
 *
 * in: rows, the night ledger in the order of time; latitude_deg, north positive
 * source: HyndmanFan1996, definition 7 (the 90 percent quantile of short hours)
 */
export function winterStatistics(rows: readonly NightRow[], latitude_deg: number): WinterStatistics[] {
  const winters = new Map<string, NightRow[]>();
  for (const row of rows) {
    const nights = winters.get(row.winter);
    if (nights === undefined) winters.set(row.winter, [row]);
    else nights.push(row);
  }
  return [...winters].map(([winter, nights]) =>
    oneWinter(winter, inSeason(winter, nights, latitude_deg), latitude_deg),
  );
}

function oneWinter(winter: string, all: readonly NightRow[], latitude_deg: number): WinterStatistics {
  const rows = all.filter((row) => row.complete);
  const failed = rows.filter((row) => row.outcome === 'failed');
  const column = new Float64Array(rows.length);
  const sum = (of: (row: NightRow) => number) => {
    for (let i = 0; i < rows.length; i++) column[i] = of(rows[i]!);
    return compensatedSum(column);
  };
  // To the second: of nights that fail alike the first is the worst, whatever their last bits say.
  const worst = greatest(rows, (row) => Math.round(row.short_h * 3600));
  const closest = least(rows, (row) => row.reserveDawn_J);
  const longest = longestSpell(rows);
  const extent = extentOf(winter, all, latitude_deg);
  const shortHours = failed.map((row) => row.short_h);
  return {
    winter,
    extent,
    complete: extent !== 'part',
    nights: rows.filter((row) => row.outcome !== 'nothing-promised').length,
    failedNights: failed.length,
    failedOut: failed.filter((row) => row.wentOut).length,
    causes: causesOf(failed),
    promised_h: sum((row) => row.promised_h),
    short_h: sum((row) => row.short_h),
    dim_h: sum((row) => row.dim_h),
    out_h: sum((row) => row.out_h),
    shortMedian_h: shortHours.length === 0 ? 0 : median(shortHours),
    short_90_percent_h: quantile(shortHours, 0.9) ?? 0,
    worstNight:
      worst === undefined || worst.short_h === 0
        ? undefined
        : {
            night: worst.night,
            short_h: worst.short_h,
            dim_h: worst.dim_h,
            out_h: worst.out_h,
            cause: worst.cause,
          },
    longestSpell: longest,
    darkestFortnight: darkestFortnight(rows),
    lightGiven_lm_h: sum((row) => row.lightGiven_lm_h),
    smallestReserve_J: closest?.reserveDawn_J ?? Number.NaN,
    smallestReserveNight: closest?.night ?? '',
    recoveryNights: longest && recoveryNights(rows, longest.to),
    filledWeather_h: sum((row) => row.filledWeather_h),
  };
}

function causesOf(failed: readonly NightRow[]): WinterStatistics['causes'] {
  const causes: WinterStatistics['causes'] = {};
  for (const { cause } of failed) if (cause !== 'none') causes[cause] = (causes[cause] ?? 0) + 1;
  return causes;
}

/** Nights after a spell until a dawn with half of the winter's median reserve; the rest of the winter if none comes. */
function recoveryNights(rows: readonly NightRow[], spellEnds: string): number {
  const reserves = rows.map((row) => row.reserveDawn_J).filter((reserve) => !Number.isNaN(reserve));
  const usual = median(reserves);
  const end = rows.findIndex((row) => row.night === spellEnds);
  for (let i = end + 1; i < rows.length; i++) {
    if (rows[i]!.reserveDawn_J >= usual / 2) return i - end;
  }
  return rows.length - 1 - end;
}

/** A joined year has so many at least; a stretch of one has fewer. */
const YEAR_NIGHTS = 365;

function extentOf(winter: string, rows: readonly NightRow[], latitude_deg: number): WinterExtent {
  if (isWhole(winter, rows, latitude_deg)) return 'whole';
  return !winter.endsWith('joined') && holdsDarkMonths(rows, latitude_deg) ? 'dark-months' : 'part';
}

function holdsDarkMonths(rows: readonly NightRow[], latitude_deg: number): boolean {
  const { from_ms, to_ms } = darkSeason(Number(rows[0]!.winter.slice(0, 4)), latitude_deg);
  const [from, to] = [dateText(from_ms), dateText(to_ms)];
  const held = rows.filter(({ complete, night }) => complete && night >= from && night < to);
  return held.length * DAY_MS === to_ms - from_ms;
}

/** The season's last night may be cut at its dawn, where the record ends with its last day: it lies in summer. */
function isWhole(winter: string, rows: readonly NightRow[], latitude_deg: number): boolean {
  const last = rows[rows.length - 1]!;
  if (!rows.every((row) => row.complete || row === last)) return false;
  if (winter.endsWith('joined')) return last.complete && rows.length >= YEAR_NIGHTS;
  const [firstNight, lastNight] = latitude_deg < 0 ? ['01-01', '12-31'] : ['07-01', '06-30'];
  return rows[0]!.complete && rows[0]!.night.slice(5) === firstNight && last.night.slice(5) === lastNight;
}

/**
 * The longest run of consecutive failed nights, the earliest of equals; undefined where none failed.
 *
 * in: rows, one winter in the order of the season (for a joined year July first, so that spells run over the seam)
 */
function longestSpell(rows: readonly NightRow[]): Spell | undefined {
  let best: Spell | undefined;
  let first = -1;
  for (let i = 0; i <= rows.length; i++) {
    if (i < rows.length && rows[i]!.outcome === 'failed') {
      if (first < 0) first = i;
    } else if (first >= 0) {
      const nights = i - first;
      if (best === undefined || nights > best.nights) {
        best = { from: rows[first]!.night, to: rows[i - 1]!.night, nights };
      }
      first = -1;
    }
  }
  return best;
}

const FORTNIGHT = 14;

/**
 * The 14 nights running with most short hours; among equals the one with least light on the cell.
 *
 * in: rows, as for longestSpell
 * out: undefined where there are fewer than 14 nights
 */
function darkestFortnight(rows: readonly NightRow[]): Fortnight | undefined {
  let best: Fortnight | undefined;
  for (let i = 0; i + FORTNIGHT <= rows.length; i++) {
    let short_h = 0;
    let light = 0;
    for (let j = i; j < i + FORTNIGHT; j++) {
      short_h += rows[j]!.short_h;
      light += rows[j]!.lightOnCell_Wh_m2;
    }
    const darker = best === undefined || short_h > best.short_h + 1e-9;
    const duller =
      best !== undefined && Math.abs(short_h - best.short_h) <= 1e-9 && light < best.lightOnCell_Wh_m2;
    if (!darker && !duller) continue;
    const span = rows.slice(i, i + FORTNIGHT);
    best = {
      from: span[0]!.night,
      to: span[FORTNIGHT - 1]!.night,
      short_h,
      failedNights: span.filter((row) => row.outcome === 'failed').length,
      lightOnCell_Wh_m2: light,
      lowestCapacitor_V: min(span, (row) => row.capacitorLowest_V) ?? Number.NaN,
    };
  }
  return best;
}

/**
 * The rows of a winter in the order of the season: those of a year joined to itself begin with July (north of the
 * equator; with January south of it), so that spells run over its seam in whatever month it lies. Rows of any other
 * winter stand so already.
 *
 * in: winter, its name; rows, in the order of time, a civil date each; latitude_deg, north positive
 * out: the same rows
 */
export function inSeason<Row extends { night: string }>(
  winter: string,
  rows: readonly Row[],
  latitude_deg: number,
): readonly Row[] {
  if (!winter.endsWith('joined')) return rows;
  const begins = latitude_deg < 0 ? '01-01' : '07-01';
  const sinceBegin = rows.map((row) => {
    const day = row.night.slice(5);
    return day >= begins ? `0-${day}` : `1-${day}`;
  });
  const first = sinceBegin.findIndex((day, i) => i > 0 && day < sinceBegin[i - 1]!);
  return first < 0 ? rows : [...rows.slice(first), ...rows.slice(0, first)];
}
