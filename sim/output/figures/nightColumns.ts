import { civilOffset } from '../../common/civilTime.ts';
import { HOUR_MS } from '../../common/time.ts';
import type { NightRow } from '../../night/nightLedger.ts';
import { nightSpans, type SpanKind } from '../../night/nightSpans.ts';
import { inSeason } from '../../statistics/winterStatistics.ts';
import type { Site } from '../../sun/Site.ts';
import type { TimedTrial } from '../../trial/Trial.ts';
import { NIGHT_COLUMNS } from '../columns.ts';
import { CAUSE_WORDS } from '../words.ts';
import { type ChartColumn, numbers, texts } from './chart.ts';

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
export function nightColumns(trial: TimedTrial, winter: string, site: Site): NightColumn[] {
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
      spans: spans.map((span) => ({
        from_h: clock(span.from_ms),
        to_h: clock(span.to_ms),
        kind: span.kind,
      })),
      firstShort_h: clock(row.firstShort_ms),
    });
  });
  return [...inSeason(winter, columns, site.latitude_deg)];
}

/**
 * Hours after a midnight as the wall clock shows them.
 *
 * in: hours, from 0 on; NaN where it does not apply
 * out: 'HH:MM'; '' for NaN
 * @example clockText(25.5); // => '01:30'
 */
export function clockText(hours: number): string {
  if (Number.isNaN(hours)) return '';
  const minutes = ((Math.round(hours * 60) % 1440) + 1440) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

/** A column of the ledger's list, with fewer decimals. */
function ledger(key: keyof NightRow, decimals: number): ChartColumn<NightColumn> {
  const { heading, label, unit } = NIGHT_COLUMNS.find((column) => column.key === key)!;
  return numbers(heading, label, unit, decimals, ({ row }) => row[key] as number);
}

/** What the night chart's table says of a night. */
export const NIGHT_TABLE: ChartColumn<NightColumn>[] = [
  texts('night', 'evening of', ({ row }) => row.night),
  texts('outcome', 'promise', ({ row }) => row.outcome.replace('-', ' ')),
  ledger('short_h', 2),
  ledger('out_h', 2),
  texts('cause', 'cause', ({ row: { cause } }) => (cause === 'none' ? '' : CAUSE_WORDS[cause])),
  ledger('capacitorDusk_V', 2),
  ledger('capacitorDawn_V', 2),
  texts('first_short_local', 'first short', (night) => clockText(night.firstShort_h)),
  ledger('lit_h', 2),
  ledger('litBeyondPromise_h', 2),
  texts('dusk_local', 'dusk', ({ dusk_h }) => clockText(dusk_h)),
  texts('dawn_local', 'dawn', ({ dawn_h }) => clockText(dawn_h)),
  ledger('lightOnCell_Wh_m2', 0),
];
