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
  /** The instants, UTC milliseconds, at which the clock shows a time: none that it skips, two that it shows twice. */
  readonly showings: (wall_ms: number) => number[];
  keeper?: RowKeeper;
  previous_ms = Number.NaN;
  /** The row before stood at a time the clock shows twice, at its first showing. */
  previousTwice = false;
  /** Zones that were named where the clock may keep daylight saving time. */
  readonly daylightSaid = new Set<string>();
  /** Cells that said 'missing', by quantity and code. */
  readonly missing: NativeSeries['missing'] = {};
  readonly #counts = new Map<string, number>();
  #latest_ms = Number.NEGATIVE_INFINITY;

  constructor(recognition: DetectedFormat, said: SaidOfRows) {
    this.recognition = recognition;
    this.said = said;
    this.showings = showingsOf(recognition.stamp.zone, said.longitude_deg ?? Number.NaN);
  }

  /**
   * UTC milliseconds of a time on the clock, asked row by row; NaN where the clock skipped it. Of a time that came twice,
   * the first until the rows have reached it, then the second.
   */
  toUtc(wall_ms: number): number {
    const [first = Number.NaN, second] = this.showings(wall_ms);
    const utc_ms = second !== undefined && first <= this.#latest_ms ? second : first;
    if (!Number.isNaN(utc_ms)) this.#latest_ms = utc_ms;
    return utc_ms;
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

/**
 * When the clock of a file shows a time: UTC milliseconds from wall-clock milliseconds, in order.
 *
 * in: zone; longitude_deg, for true solar time, east positive
 * valid: true solar time by the sun's mean elements, within 6 seconds
 * source: AstronomicalAlmanacLowPrecision for the equation of time
 */
function showingsOf(zone: ZoneClaim, longitude_deg: number): (wall_ms: number) => number[] {
  if (zone.kind === 'solar') {
    return (wall_ms) => {
      // True solar time is UTC plus four minutes a degree plus the equation of time, whole milliseconds.
      const mean_ms = wall_ms - longitude_deg * 240_000;
      return [Math.round(mean_ms - sunOfDay(mean_ms).equationOfTime_min * 60_000)];
    };
  }
  if (zone.kind !== 'civil') {
    const offset_ms = zone.kind === 'fixed' ? zone.offset_min * 60_000 : 0;
    return (wall_ms) => [wall_ms - offset_ms];
  }
  const offset_min = civilOffset(zone.zone);
  return (wall_ms) => {
    // The offsets on either side of anything that changes near.
    const before = wall_ms - offset_min(wall_ms - DAY_MS) * 60_000;
    const after = wall_ms - offset_min(wall_ms + DAY_MS) * 60_000;
    const near = before === after ? [before] : [Math.min(before, after), Math.max(before, after)];
    return near.filter((utc_ms) => utc_ms + offset_min(utc_ms) * 60_000 === wall_ms);
  };
}
