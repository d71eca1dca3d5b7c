import { range } from 'd3-array';
import { DAY_MS, HOUR_MS, utcText } from '../../common/time.ts';
import { brokenOff, TableRows } from '../../tables/csvRows.ts';
import { quotedCell } from '../../tables/parseNumber.ts';
import { type StampReader, stampReader } from '../../tables/stampReader.ts';
import { doublingZones } from '../clock/fitDaylightSaving.ts';
import type { Layout } from '../recognise/DetectedFormat.ts';
import { nominalYear } from '../recognise/findStamps.ts';
import { bareCells } from '../recognise/unitsInCells.ts';
import { hoursOf, unrolledLayout } from '../recognise/wideDays.ts';
import type { Pass } from './Pass.ts';
import { rowKeeper } from './rowKeeper.ts';
import { rowValues } from './rowValues.ts';

const YEAR_MS = 365 * DAY_MS;
/** Clocks are put back by less. */
const MOST_PUT_BACK_MS = 2 * HOUR_MS;
/** Lines like rows but without a time: so many, or such a share of the rows, may be a footer's; more are rows lost. */
const FEW_LIKE_ROWS = 5;
const FEW_LIKE_ROWS_SHARE = 0.03;

/** One file's part of a pass: each line goes to the pass's keeper, its notes or its problems, by what it is. */
export class FilePass {
  readonly #valuesOf: ReturnType<typeof rowValues>;
  readonly #pass: Pass;
  readonly #file: string;
  readonly #layout: Layout;
  readonly #stamps: StampReader;
  readonly #rows: TableRows;
  /** Values of the last row that was kept. */
  readonly #kept: Float64Array;
  /** The rows at hand may stand there already: always at a file's beginning. */
  #overlaps = true;
  /** Lines that were passed over although they look like rows. */
  readonly #likeRows: number[] = [];

  /** in: pass; file, name for messages; layout */
  constructor(pass: Pass, file: string, layout: Layout) {
    const { stamp, columns, station } = pass.recognition;
    this.#pass = pass;
    this.#file = file;
    const { wide } = layout;
    this.#layout = wide === undefined ? layout : unrolledLayout(layout, wide);
    this.#stamps = stampReader(stamp.parts);
    this.#valuesOf = rowValues(pass, file, this.#layout);
    this.#kept = new Float64Array(columns.length);
    const wanted = [...this.#stamps.columns, ...columns.map(({ column }) => column)];
    if (station !== undefined) wanted.push(station.column);
    const { delimiter, firstDataLine, width, headings } = layout;
    // Notes may stand behind the cells, but decimal commas in a file that parts its cells by commas make rows too wide.
    const parts = delimiter === ',' && headings.length > 0;
    const widest = parts ? Math.max(headings.length, width) : Number.POSITIVE_INFINITY;
    const shape = { file, delimiter, firstLine: firstDataLine, width, widest };
    const read = wide === undefined ? wanted : range(wide.first + wide.count);
    const bare = bareCells(pass.said.strict ? {} : layout, read);
    this.#rows = new TableRows(shape, read, pass.problems, (cells, cellCount, line, last) =>
      wide === undefined
        ? this.#take(bare(cells), cellCount, line, last)
        : this.#takeDay(hoursOf(bare(cells), wide), wanted, line, last),
    );
  }

  /** Takes the next piece of the file's text. */
  push(text: string): void {
    this.#rows.push(text);
  }

  end(): void {
    this.#rows.end();
    const lost = this.#likeRows.length;
    if (lost <= Math.max(FEW_LIKE_ROWS, FEW_LIKE_ROWS_SHARE * this.rows)) return;
    this.#pass.problems.add('like rows', () => ({
      ...this.#stampAt(this.#likeRows[0]!),
      code: 'WEATHER_STAMP_UNREADABLE',
      got: `a line like a row, whose time is not whole, and ${lost - 1} more of them`,
      expected: 'a time in every row',
      fix: 'complete the times, or take these lines away.',
    }));
  }

  /** Rows with a time. */
  get rows(): number {
    return this.#rows.rows;
  }

  /** in: hours of a day; wanted, of their columns. out: whether the day has a date */
  #takeDay(hours: readonly string[][], wanted: readonly number[], line: number, last: boolean): boolean {
    const { width } = this.#layout;
    return hours.every((cells) =>
      this.#take(
        wanted.map((column) => cells[column]!),
        width,
        line,
        last,
      ),
    );
  }

  /** out: whether it is a row with a time */
  #take(cells: readonly string[], width: number, line: number, last: boolean): boolean {
    const { station, stamp, columns } = this.#pass.recognition;
    if (station !== undefined && cells[this.#stamps.columns.length + columns.length] !== station.name)
      return false;
    const wall_ms = this.#stamps.read(cells, 0);
    if (Number.isNaN(wall_ms)) {
      this.#noRow(cells, width, line, last);
      return false;
    }
    const laid_ms = stamp.typicalYear ? nominalYear(wall_ms) : wall_ms;
    if (Number.isNaN(laid_ms)) {
      this.#pass.note('rows of 29 February left out: the typical year has 365 days');
      return false;
    }
    this.#row(cells, line, laid_ms, wall_ms);
    return true;
  }

  /** A row with a time. */
  #row(cells: readonly string[], line: number, laid_ms: number, wall_ms: number): void {
    const pass = this.#pass;
    const { stamp } = pass.recognition;
    const utc_ms = this.#utcOf(laid_ms);
    const isSkipped = Number.isNaN(utc_ms);
    const span_s = isSkipped ? stamp.step_s : Math.abs(utc_ms - pass.previous_ms) / 1000;
    const values = this.#valuesOf(cells, this.#stamps.columns.length, line, span_s);
    const ahead_ms = (utc_ms - pass.previous_ms) * (stamp.descending ? -1 : 1);
    if (isSkipped) this.#skippedTime(values, cells, line);
    else if (ahead_ms <= 0) {
      const repeats = ahead_ms === 0 && values.every((value, q) => Object.is(value, this.#kept[q]));
      if (repeats && !pass.said.strict) pass.note('rows that repeat the one before, left out');
      else if (this.#isOverlap(ahead_ms) && pass.keeper?.has(utc_ms, values))
        pass.note('rows that stand there already, with the same values, left out');
      else this.#outOfOrder(ahead_ms, utc_ms, cells, line);
    } else {
      this.#noteTwice(wall_ms, ahead_ms);
      pass.keeper ??= rowKeeper(pass.recognition, utc_ms);
      pass.keeper.add(utc_ms, values, line);
      this.#kept.set(values);
      this.#overlaps = false;
      pass.previous_ms = utc_ms;
    }
  }

  /** Whether rows begin anew with what stands before, as where files overlap: farther back than clocks are put. */
  #isOverlap(ahead_ms: number): boolean {
    this.#overlaps ||= ahead_ms < -MOST_PUT_BACK_MS;
    return this.#overlaps && !this.#pass.said.strict;
  }

  #utcOf(laid_ms: number): number {
    const { recognition, previous_ms } = this.#pass;
    const { stamp } = recognition;
    const offset_ms = 'stated' in stamp.zone ? Number.NaN : this.#stamps.offset_ms();
    const utc_ms = Number.isNaN(offset_ms) ? this.#pass.toUtc(laid_ms) : laid_ms - offset_ms;
    return stamp.typicalYear && utc_ms < previous_ms - 300 * DAY_MS ? utc_ms + YEAR_MS : utc_ms;
  }

  /** A line without a time: a repeated heading, a comment, a footer; or a broken stamp. */
  #noRow(cells: readonly string[], width: number, line: number, last: boolean): void {
    const { columns } = this.#stamps;
    const text = this.#stampText(cells).trim();
    const headings = columns.map((column) => this.#layout.headings[column]);
    const isHeading = headings.some((heading, c) => Boolean(heading) && cells[c] === heading);
    const { recognition, problems, said } = this.#pass;
    const values = cells.slice(columns.length, columns.length + recognition.columns.length);
    const hasValue = values.some((cell) => /^[+-]?[\d.,]+$/.test(cell));
    const hasFigures = columns.every((_, c) => /\d/.test(cells[c]!));
    if (isHeading || this.#layout.preamble.some((each) => each.trim() === text))
      this.#pass.note('lines that repeat the heading or the preamble');
    else if (/^[\s"]*(#|%|!|\/\/|\*)/.test(cells[0]!)) this.#pass.note('comment lines');
    else if (last && /^\d/.test(text)) {
      const shows = `a last line that breaks off after ${quotedCell(text)}`;
      problems.add('broken off', () => brokenOff(this.#file, line, shows));
    } else if (!hasValue || (!hasFigures && !said.strict)) {
      this.#pass.note('lines that are no rows (footers, notes)');
      // Footers and totals have a word for what they are.
      if (hasValue && width === this.#layout.width && !/\p{L}/u.test(text)) this.#likeRows.push(line);
    } else {
      problems.add('stamp', () => ({
        ...this.#stampAt(line),
        code: 'WEATHER_STAMP_UNREADABLE',
        got: quotedCell(text),
        expected: `a time that exists, written as in the other rows: ${recognition.stamp.style}`,
        fix: 'correct the stamp.',
      }));
    }
  }

  #skippedTime(values: Float64Array, cells: readonly string[], line: number): void {
    if (values.every(Number.isNaN)) {
      this.#pass.note('rows without values at a time that the clock skips, left out');
      return;
    }
    const { zone } = this.#pass.recognition.stamp;
    this.#pass.problems.add('skipped', () => ({
      ...this.#stampAt(line),
      code: 'WEATHER_STAMP_UNREADABLE',
      got: `${quotedCell(this.#stampText(cells))}, a time that the clock of ${zone.kind === 'civil' ? zone.zone : zone.words} skips`,
      expected: 'times that exist on that clock',
      fix: 'is the clock on standard time all year? Then --zone +01:00 or the like (in a scenario, weather.zone).',
    }));
  }

  #outOfOrder(ahead_ms: number, utc_ms: number, cells: readonly string[], line: number): void {
    const { problems, previous_ms, said } = this.#pass;
    const isAgain = ahead_ms === 0;
    const stamp = quotedCell(this.#stampText(cells));
    problems.add(isAgain ? 'duplicate' : 'disorder', () => {
      const daylight = this.#daylightSaving(utc_ms);
      return {
        ...this.#stampAt(line),
        code: isAgain ? 'WEATHER_DUPLICATE' : 'WEATHER_DISORDER',
        got: isAgain
          ? `${stamp} again${said.strict ? '' : ', with other values'}`
          : `${stamp} (${utcText(utc_ms)}) after ${utcText(previous_ms)}`,
        expected: 'each time once, in order',
        fix: `take one of the two away, or sort the rows.${daylight.fix}`,
        ...(daylight.typed.length > 0 ? { typed: daylight.typed } : {}),
      };
    });
  }

  /** What would mend rows where a clock is put back; each once. */
  #daylightSaving(utc_ms: number): { fix: string; typed: string[] } {
    const { recognition, said, daylightSaid } = this.#pass;
    const { zone } = recognition.stamp;
    if (zone.kind === 'civil' || zone.kind === 'each') return { fix: '', typed: [] };
    const wall_ms = utc_ms + (zone.kind === 'fixed' ? zone.offset_min * 60_000 : 0);
    const zones = doublingZones(wall_ms, said.longitude_deg ?? Number.NaN);
    const typed = zones.map((name) => `--zone ${name}`);
    const those = typed.join(', or ') || '--zone Europe/Berlin or the like';
    if (daylightSaid.has(those)) return { fix: '', typed: [] };
    daylightSaid.add(those);
    return {
      fix: ` If the clock keeps daylight saving time: ${those} (in a scenario, weather.zone).`,
      typed,
    };
  }

  /** An hour that the clock shows twice should stand there twice; home stations keep it once. */
  #noteTwice(wall_ms: number, ahead_ms: number): void {
    const { stamp } = this.#pass.recognition;
    if (stamp.zone.kind !== 'civil' || stamp.irregular) return;
    if (this.#pass.previousTwice && ahead_ms === stamp.step_s * 1000 + HOUR_MS)
      this.#pass.note('hours that the clock shows twice stand in the file once; the other is a gap');
    this.#pass.previousTwice = this.#pass.showings(wall_ms).length === 2;
  }

  #stampText(cells: readonly string[]): string {
    return cells.slice(0, this.#stamps.columns.length).join(' ');
  }

  #stampAt(line: number) {
    const field = this.#layout.headings[this.#stamps.columns[0]!];
    return { file: this.#file, line, ...(field ? { field } : {}) };
  }
}
