import { civilOffset } from '../../common/civilTime.ts';
import { type ProblemList, problemList } from '../../common/problemList.ts';
import { DAY_MS } from '../../common/time.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import type { DetectedFormat, QuantityName, ZoneClaim } from '../recognise/DetectedFormat.ts';
import type { NativeSeries } from './NativeSeries.ts';
import type { RowKeeper } from './rowKeeper.ts';

/** What the user says of a file's rows. */
export interface SaidOfRows {
  /** Codes that say 'missing'. */
  missing?: readonly string[] | undefined;
  /** Nothing but these does, and nothing is mended. */
  strict?: boolean | undefined;
  /** For true solar time: east positive. */
  longitude_deg?: number | undefined;
}

/** What goes on from row to row and from file to file of a record. */
export class Pass {
  readonly problems: ProblemList = problemList();
  readonly recognition: DetectedFormat;
  readonly said: SaidOfRows;
  readonly clock: ZoneClock;
  keeper?: RowKeeper;
  previous_ms = Number.NaN;
  /** The row before stood at a time the clock shows twice, at its first showing. */
  previousTwice = false;
  /** Cells that said 'missing', by quantity and code. */
  readonly missing: NativeSeries['missing'] = {};
  readonly #counts = new Map<string, number>();

  constructor(recognition: DetectedFormat, said: SaidOfRows) {
    this.recognition = recognition;
    this.said = said;
    this.clock = zoneClock(recognition.stamp.zone, said.longitude_deg ?? Number.NaN);
  }

  /** Something was passed over, or changed. */
  note(text: string): void {
    this.#counts.set(text, (this.#counts.get(text) ?? 0) + 1);
  }

  /** out: NaN, the value of a cell that says 'missing' */
  missingCell(quantity: QuantityName, code: string): number {
    this.missing[quantity] ??= {};
    const counts = this.missing[quantity];
    counts[code] = (counts[code] ?? 0) + 1;
    return Number.NaN;
  }

  /** What was noted, in words, each with its count. */
  notes(): string[] {
    return Array.from(this.#counts, ([text, count]) => `${count} ${text}`);
  }
}

/** Turns wall clocks into UTC, in the order of the rows. */
interface ZoneClock {
  /**
   * UTC milliseconds; NaN where the clock skipped that time. Of a time that came twice, the first until the rows
   * have reached it, then the second.
   */
  toUtc: (wall_ms: number) => number;
  /** The clock shows this time twice. */
  twice: (wall_ms: number) => boolean;
}

/**
 * The clock of a file: UTC milliseconds from wall-clock milliseconds.
 *
 * in: zone; longitude_deg, for true solar time, east positive
 * out: the clock; its civil time remembers the row before
 * valid: true solar time by the sun's mean elements, within 6 seconds
 * source: AstronomicalAlmanacLowPrecision for the equation of time
 */
function zoneClock(zone: ZoneClaim, longitude_deg: number): ZoneClock {
  const once = () => false;
  if (zone.kind === 'civil') return civilClock(zone.zone);
  if (zone.kind === 'solar') {
    return {
      // True solar time is UTC plus four minutes a degree plus the equation of time, whole milliseconds.
      toUtc: (wall_ms) => {
        const mean_ms = wall_ms - longitude_deg * 240_000;
        return Math.round(mean_ms - sunOfDay(mean_ms).equationOfTime_min * 60_000);
      },
      twice: once,
    };
  }
  const offset_ms = zone.kind === 'fixed' ? zone.offset_min * 60_000 : 0;
  return { toUtc: (wall_ms) => wall_ms - offset_ms, twice: once };
}

function civilClock(name: string): ZoneClock {
  const offsetOf_min = civilOffset(name);
  const offsetAt = (ms: number): number => offsetOf_min(ms) * 60_000;
  let latest = Number.NEGATIVE_INFINITY;
  const both = (wall_ms: number): [number, number] => {
    // The offsets on either side of anything that changes near.
    const before = wall_ms - offsetAt(wall_ms - DAY_MS);
    const after = wall_ms - offsetAt(wall_ms + DAY_MS);
    return [Math.min(before, after), Math.max(before, after)];
  };
  const fits = (utc_ms: number, wall_ms: number): boolean => utc_ms + offsetAt(utc_ms) === wall_ms;
  return {
    toUtc: (wall_ms) => {
      const [first, second] = both(wall_ms);
      let utc = Number.NaN;
      if (fits(first, wall_ms)) utc = first;
      if (second !== first && fits(second, wall_ms) && (Number.isNaN(utc) || utc <= latest)) utc = second;
      if (!Number.isNaN(utc)) latest = utc;
      return utc;
    },
    twice: (wall_ms) => {
      const [first, second] = both(wall_ms);
      return first !== second && fits(first, wall_ms) && fits(second, wall_ms);
    },
  };
}
