import { median } from 'simple-statistics';
import { compensatedSum } from '../common/numeric.ts';
import type { NightRow } from '../night/NightRow.ts';
import { inSeason } from './inSeason.ts';
import { quantile } from './quantile.ts';
import { darkestFortnight, longestSpell } from './spells.ts';
import type { WinterStatistics } from './types.ts';

/**
 * What each winter came to, in the order of time.
 *
 * A winter is complete where the record holds every one of its nights: 1 July to 30 June north of the equator,
 * 1 January to 31 December south of it, or the one joined year.
 *
 * in: rows, the night ledger in the order of time; latitude_deg, north positive
 */
export function winterStatistics(rows: readonly NightRow[], latitude_deg: number): WinterStatistics[] {
  const winters = new Map<string, NightRow[]>();
  for (const row of rows) {
    const winter = winters.get(row.winter);
    if (winter === undefined) winters.set(row.winter, [row]);
    else winter.push(row);
  }
  return [...winters].map(([winter, nights]) =>
    oneWinter(winter, inSeason(winter, nights, latitude_deg), latitude_deg),
  );
}

function oneWinter(winter: string, all: readonly NightRow[], latitude_deg: number): WinterStatistics {
  const rows = all.filter((row) => row.complete);
  const promised = rows.filter((row) => row.outcome !== 'nothing-promised');
  const failed = rows.filter((row) => row.outcome === 'failed');
  const worst = rows.reduce<NightRow | undefined>(
    (a, b) => (b.short_h > (a?.short_h ?? 0) ? b : a),
    undefined,
  );
  const withReserve = rows.filter((row) => !Number.isNaN(row.reserveDawn_J));
  const least = withReserve.reduce<NightRow | undefined>(
    (a, b) => (a === undefined || b.reserveDawn_J < a.reserveDawn_J ? b : a),
    undefined,
  );
  const spell = longestSpell(rows);
  const fortnight = darkestFortnight(rows);
  const recovery = spell === undefined ? undefined : recoveryNights(rows, spell.to);
  const shortHours = failed.map((row) => row.short_h);
  return {
    winter,
    complete: isWhole(winter, all, latitude_deg),
    nights: promised.length,
    failedNights: failed.length,
    promised_h: compensatedSum(rows.map((row) => row.promised_h)),
    short_h: compensatedSum(rows.map((row) => row.short_h)),
    causes: causesOf(failed),
    ...(worst === undefined
      ? {}
      : { worstNight: { night: worst.night, short_h: worst.short_h, cause: worst.cause } }),
    ...(spell === undefined ? {} : { longestSpell: spell }),
    ...(fortnight === undefined ? {} : { darkestFortnight: fortnight }),
    lightGiven_lm_h: compensatedSum(rows.map((row) => row.lightGiven_lm_h)),
    smallestReserve_J: least?.reserveDawn_J ?? Number.NaN,
    smallestReserveNight: least?.night ?? '',
    ...(recovery === undefined ? {} : { recoveryNights: recovery }),
    shortMedian_h: shortHours.length === 0 ? 0 : median(shortHours),
    short90_h: shortHours.length === 0 ? 0 : quantile(shortHours, 0.9),
    filledWeather_h: compensatedSum(rows.map((row) => row.filledWeather_h)),
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

/** The season's last night may be cut at its dawn, where the record ends with its last day: it lies in summer. */
function isWhole(winter: string, rows: readonly NightRow[], latitude_deg: number): boolean {
  const last = rows[rows.length - 1]!;
  if (!rows.every((row) => row.complete || row === last)) return false;
  if (winter.endsWith('joined')) return last.complete;
  const [firstNight, lastNight] = latitude_deg < 0 ? ['01-01', '12-31'] : ['07-01', '06-30'];
  return rows[0]!.complete && rows[0]!.night.slice(5) === firstNight && last.night.slice(5) === lastNight;
}
