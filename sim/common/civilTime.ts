import { DAY_MS } from './time.ts';

/** What a zone was found to be ahead of UTC before: by the day in UTC, at its start. */
const remembered = new Map<string, Map<number, number>>();

/**
 * A reader of civil time: how far a zone is ahead of UTC, minutes, by the platform's own table of zones. It asks for it
 * once a day, and instant by instant only on days on which the clocks change.
 *
 * in: timeZone, IANA name; then ms, UTC milliseconds
 * out: offset; NaN for NaN
 * throws: Error where the zone is not known
 */
export function civilOffset(timeZone: string): (ms: number) => number {
  const zoneOffset = zoneReader(timeZone);
  const known = remembered.get(timeZone) ?? new Map<number, number>();
  remembered.set(timeZone, known);
  const atStartOf = (day: number): number => {
    let offset_min = known.get(day);
    if (offset_min === undefined) {
      offset_min = zoneOffset(day * DAY_MS);
      known.set(day, offset_min);
    }
    return offset_min;
  };
  return (ms) => {
    if (Number.isNaN(ms)) return Number.NaN;
    const day = Math.floor(ms / DAY_MS);
    const offset_min = atStartOf(day);
    return offset_min === atStartOf(day + 1) ? offset_min : zoneOffset(ms);
  };
}

const readers = new Map<string, (ms: number) => number>();

/** Reads how far a zone is ahead of UTC, minutes, at one instant after another. throws: Error where it is not known */
function zoneReader(timeZone: string): (ms: number) => number {
  const known = readers.get(timeZone);
  if (known !== undefined) return known;
  const format = clockOf(timeZone);
  const reader = (ms: number) => {
    const whole_ms = Math.floor(ms / 1000) * 1000;
    const [month, day, year, hour, minute, second] = format.format(whole_ms).match(/\d+/g)!.map(Number);
    const civil_ms = Date.UTC(year!, month! - 1, day, hour, minute, second);
    return (civil_ms - whole_ms) / 60_000;
  };
  readers.set(timeZone, reader);
  return reader;
}

function clockOf(timeZone: string): Intl.DateTimeFormat {
  const number = 'numeric';
  const date = { year: number, month: number, day: number } as const;
  const time = { hour: number, minute: number, second: number, hourCycle: 'h23' } as const;
  try {
    return new Intl.DateTimeFormat('en-US', { timeZone, ...date, ...time });
  } catch {
    throw new Error(`no time zone ${timeZone}`);
  }
}

/**
 * A reader of the clock on the wall: the instant at which it shows a time, UTC milliseconds. Where it shows it twice,
 * the first of the two; where it leaps over it, as long after the leap as the time lies after its beginning.
 *
 * in: timeZone, IANA name; then date, 'YYYY-MM-DD'; time, 'HH:MM', midnight unless given
 * throws: Error where the zone is not known
 * @example civilInstant('Europe/Berlin')('1970-01-02'); // => 82800000
 */
export function civilInstant(timeZone: string): (date: string, time?: string) => number {
  const offset = civilOffset(timeZone);
  return (date, time = '00:00') => {
    const asUtc_ms = Date.parse(`${date}T${time}Z`);
    const ahead_ms = (ms: number) => Math.round(offset(ms) * 60_000);
    const [before_ms, after_ms] = [ahead_ms(asUtc_ms - DAY_MS), ahead_ms(asUtc_ms + DAY_MS)];
    const first_ms = asUtc_ms - Math.max(before_ms, after_ms);
    const isShown = before_ms === after_ms || first_ms + ahead_ms(first_ms) === asUtc_ms;
    return isShown ? first_ms : asUtc_ms - Math.min(before_ms, after_ms);
  };
}

/**
 * The date of an instant in UTC.
 * @example dateText(86400000); // => '1970-01-02'
 */
export function dateText(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** The IANA name of this computer's own time zone: to be offered, for no result. */
export function ownTimeZone(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** IANA names of all time zones that are known, to find a misspelt one. */
export function timeZones(): readonly string[] {
  return Intl.supportedValuesOf('timeZone');
}
