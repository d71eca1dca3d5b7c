import { HOUR_MS } from '../../common/time.ts';
import type { NightRow } from '../../night/NightRow.ts';
import { nightSpans, type SpanKind } from '../../night/nightSpans.ts';
import { inSeason } from '../../statistics/inSeason.ts';
import type { Site } from '../../sun/Site.ts';
import type { Trial } from '../../trial/Trial.ts';
import { civilOffset } from '../civilStamp.ts';

/** A night as a column of the night chart; hours by the wall clock after midnight before its evening, so 25.5 is half past one. */
export interface NightColumn {
  row: NightRow;
  /** NaN in a white night. */
  dusk_h: number;
  dawn_h: number;
  spans: { from_h: number; to_h: number; kind: SpanKind }[];
  firstShort_h: number;
}

/**
 * The nights of a winter as columns, in the order of the season.
 *
 * in: trial; winter, its name; site
 * out: a column a night
 */
export function nightColumns(trial: Trial, winter: string, site: Site): NightColumn[] {
  const { light, year, nights } = trial;
  const offset_min = civilOffset(site.timeZone);
  const columns: (NightColumn & { night: string })[] = [];
  nights.forEach((row, n) => {
    if (row.winter !== winter) return;
    const midnight_ms = Date.parse(`${row.night}T00:00:00Z`);
    const clock = (ms: number) => (ms + offset_min(ms) * 60_000 - midnight_ms) / HOUR_MS;
    const from_ms = light.nights.noon_ms[year.firstNight + n] ?? row.dusk_ms;
    const to_ms = light.nights.noon_ms[year.firstNight + n + 1] ?? row.dawn_ms;
    const stretch = { from_ms, to_ms, firstShort_ms: row.firstShort_ms };
    const spans = Number.isNaN(from_ms + to_ms)
      ? []
      : nightSpans(stretch, year.columns, light.start_ms, year.joined);
    columns.push({
      night: row.night,
      row,
      dusk_h: clock(row.dusk_ms),
      dawn_h: clock(row.dawn_ms),
      spans: spans.map(({ from_ms: from, to_ms: to, kind }) => ({
        from_h: clock(from),
        to_h: clock(to),
        kind,
      })),
      firstShort_h: clock(row.firstShort_ms),
    });
  });
  return [...inSeason(winter, columns, site.latitude_deg)];
}
