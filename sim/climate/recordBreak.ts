import { log } from '../common/elementary/log.ts';
import { HOUR_MS } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';
import { type RecordedDays, recordedDays } from './RecordedDays.ts';

/** A place in a record from which on the sky, or what stands before it, is another. */
export interface RecordBreak {
  /** First winter after it, an index into the winters of the days. */
  winter: number;
  /** Calendar month that shows it most, 1 to 12. */
  month: number;
  /** Whether that month is the duller one after the break. */
  dullerAfter: boolean;
  /** Highest daily clearness of the month in each winter before it, and after it. */
  before: number[];
  after: number[];
}

/** Winters on either side; of those on the duller side so many must hold the month. */
const LEAST_WINTERS = 3;
const LEAST_DULL = 2;
/** Days of the month that a winter must have. */
const LEAST_DAYS = 20;
/** Days that lie this much above all of the duller side count; so a station a few percent off is no break. */
const MARGIN = 1.1;
/** How unlikely chance must be: one in two thousand for any one month and place of the break. */
const EVIDENCE = log(2000);

/**
 * The break that a record shows most clearly, as when its station moved into or out of shade: in one month of the year the
 * brightest day of all winters on one side lies below many days of the other side. Were the winters of one kind, each
 * spell of such days would fall on either side by chance, so that all of them lie on one with the probability of its
 * share of the winters, to the power of their number.
 *
 * in: days; from, first winter that counts, an index
 * out: undefined where there is none to be seen
 * valid: shade that takes a tenth of the brightest days; in a month that hardly ever clears up nothing shows
 * source: Coles2001 for spells of days in place of days, since bright days follow each other
 */
export function recordBreak(days: RecordedDays, from = 0): RecordBreak | undefined {
  let found: (RecordBreak & { evidence: number }) | undefined;
  for (let month = 1; month <= 12; month++) {
    const all = monthOfWinters(days, month, from);
    for (let split = LEAST_DULL; split <= all.length - LEAST_DULL; split++) {
      const winter = all[split]!.winter;
      if (winter - from < LEAST_WINTERS || days.winters.length - winter < LEAST_WINTERS) continue;
      for (const dullerAfter of [false, true]) {
        const [before, after] = [all.slice(0, split), all.slice(split)];
        const evidence = dullerAfter ? evidenceOf(after, before) : evidenceOf(before, after);
        if (evidence < EVIDENCE || evidence <= (found?.evidence ?? 0)) continue;
        const highest = (side: readonly MonthOfWinter[]) => side.map((each) => each.highest);
        found = { winter, month, dullerAfter, before: highest(before), after: highest(after), evidence };
      }
    }
  }
  return found;
}

/** A calendar month of a winter: its days in their order. */
interface MonthOfWinter {
  winter: number;
  days: number[];
  highest: number;
  clearness: Float64Array;
}

function monthOfWinters(days: RecordedDays, month: number, from: number): MonthOfWinter[] {
  const { count, clearness, record, hour, winter } = days;
  const byWinter = new Map<number, number[]>();
  for (let d = 0; d < count; d++) {
    if (winter[d]! < from || Number.isNaN(clearness[d]!)) continue;
    if (new Date(record.start_ms + (hour[d]! + 12) * HOUR_MS).getUTCMonth() + 1 !== month) continue;
    byWinter.set(winter[d]!, [...(byWinter.get(winter[d]!) ?? []), d]);
  }
  return [...byWinter].flatMap(([each, own]) =>
    own.length < LEAST_DAYS
      ? []
      : [{ winter: each, days: own, highest: Math.max(...own.map((d) => clearness[d]!)), clearness }],
  );
}

/** Less the logarithm of the probability that chance puts all bright spells on one side. */
function evidenceOf(dull: readonly MonthOfWinter[], bright: readonly MonthOfWinter[]): number {
  const bound = MARGIN * Math.max(...dull.map(({ highest }) => highest));
  const spells = bright.reduce((sum, { days, clearness }) => {
    const above = days.filter((d) => clearness[d]! > bound);
    return sum + above.filter((d, k) => d - (above[k - 1] ?? Number.NEGATIVE_INFINITY) > 1).length;
  }, 0);
  return spells * log((dull.length + bright.length) / bright.length);
}

/** A record whose breaks were looked for. */
export interface UnbrokenRecord {
  record: WeatherRecord;
  /** The last of its breaks; undefined without one. */
  last: RecordBreak | undefined;
  /** How many there are. */
  breaks: number;
  /** First hour after it, UTC milliseconds. */
  from_ms: number;
}

const YEAR_H = 8760;

/**
 * The part of a record after its last break.
 *
 * in: record; site
 * out: the record as it is where no break shows, or where it is too short to show one
 */
export function sinceLastBreak(
  record: WeatherRecord,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): UnbrokenRecord {
  const whole: UnbrokenRecord = { record, last: undefined, breaks: 0, from_ms: record.start_ms };
  if (record.count < (2 * LEAST_WINTERS - 1) * YEAR_H) return whole;
  const days = recordedDays(record, site);
  let last: RecordBreak | undefined;
  let breaks = 0;
  for (let next = recordBreak(days); next !== undefined; next = recordBreak(days, next.winter)) {
    last = next;
    breaks++;
  }
  if (last === undefined) return whole;
  const hour = days.hour[days.winter.indexOf(last.winter)]!;
  return { record: partFrom(record, hour), last, breaks, from_ms: record.start_ms + hour * HOUR_MS };
}

const NOT_MEASURED = ['filled', 'stand-in'].map((mark) =>
  WEATHER_MARKS.indexOf(mark as (typeof WEATHER_MARKS)[number]),
);

/** The hours of a record from one of them on. */
function partFrom(record: WeatherRecord, hour: number): WeatherRecord {
  const start_ms = record.start_ms + hour * HOUR_MS;
  const count = record.count - hour;
  const mark = record.mark.slice(hour);
  const filledHours = mark.reduce((sum, each) => sum + Number(NOT_MEASURED.includes(each)), 0);
  return {
    ...later(record, hour),
    ...(record.sun === undefined ? {} : { sun: { ...later(record.sun, hour), start_ms, count } }),
    start_ms,
    count,
    mark,
    origin: { ...record.origin, filledHours },
  };
}

/** Columns of hours, or of their bounds, without those before an hour; all else as it is. */
function later<Columns extends object>(columns: Columns, hour: number): Columns {
  const cut = Object.entries(columns).map(([key, column]) => [
    key,
    column instanceof Float64Array ? column.slice(hour) : column,
  ]);
  return Object.fromEntries(cut) as Columns;
}
