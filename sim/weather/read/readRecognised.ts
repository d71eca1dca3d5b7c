import { createHash, type Hash } from 'node:crypto';
import { InputProblem } from '../../common/InputProblem.ts';
import { type ProblemList, problemList } from '../../common/problemList.ts';
import { DAY_MS, HOUR_MS, utcText } from '../../common/time.ts';
import { textStream, unpacked } from '../../tables/decodeText.ts';
import { quotedCell } from '../../tables/parseNumber.ts';
import { OpenQuote, rowSplitter } from '../../tables/rowSplitter.ts';
import { stampReader } from '../../tables/stampReader.ts';
import type { TableSource } from '../../tables/TableSource.ts';
import { doublingZones } from '../clock/fitDaylightSaving.ts';
import type { DetectedFormat, Layout, QuantityName } from '../recognise/DetectedFormat.ts';
import { nominalYear } from '../recognise/findStamps.ts';
import type { NativeSeries } from './NativeSeries.ts';
import { JOINED_S, loggerKeeper, type RowKeeper, rowKeeper, stepJoiner } from './rowKeeper.ts';
import { type RowValues, rowValues } from './rowValues.ts';
import { type ZoneClock, zoneClock } from './zoneClock.ts';

export interface ReadOptions {
  /** For true solar time: east positive. */
  longitude_deg?: number | undefined;
  /** Told now and then how many of how many bytes are read. */
  onProgress?: ((done: number, total: number) => void) | undefined;
}

const YEAR_MS = 365 * DAY_MS;

/**
 * A recognised record, read whole in one checked pass: columns in canonical units at the file's own step (below ten
 * minutes joined to ten), stamps in UTC as the file claims them. Several files follow each other in time.
 *
 * in: sources, those that were recognised; recognition; options
 * out: the series, gaps left as they are
 * throws: FILE_EMPTY, FILE_TRUNCATED, FILE_NOT_TEXT, WEATHER_STAMP_UNREADABLE (also a time the clock skips),
 * WEATHER_DUPLICATE, WEATHER_DISORDER,
 * WEATHER_VALUE_NOT_NUMBER; all problems of the files together
 * valid: memory does not grow with the rows below steps of ten minutes
 */
export async function readRecognised(
  sources: readonly TableSource[],
  recognition: DetectedFormat,
  options: ReadOptions = {},
): Promise<NativeSeries> {
  const { stamp, columns } = recognition;
  if (stamp.zone.kind === 'solar' && options.longitude_deg === undefined) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      field: 'site.longitude_deg',
      got: 'stamps in true solar time and no longitude',
      expected: 'the longitude, to turn them into UTC',
      fix: '--place 54,10, or the like (in a scenario, site).',
    });
  }
  const problems = problemList();
  const clock = zoneClock(stamp.zone, options.longitude_deg);
  const all = createHash('sha256');
  const pass: Pass = {
    recognition,
    problems,
    clock,
    longitude_deg: options.longitude_deg ?? Number.NaN,
    previous_ms: Number.NaN,
    previousTwice: false,
    notes: new Map(),
  };
  const files: NativeSeries['files'] = [];
  const missing: NativeSeries['missing'] = {};
  const total = sources.reduce((sum, { size }) => sum + size, 0);
  let done = 0;
  for (const [index, { name, layout }] of recognition.files.entries()) {
    const source = sources.find((candidate) => candidate.name === name)!;
    const hash = createHash('sha256');
    const values = rowValues(name, columns, layout, stamp.step_s, problems);
    const rows = filePass(pass, name, layout, index, values);
    const gzip = isPacked(source);
    const bytes = hashed(source.chunks(), [hash, all], (length) => {
      done += length;
      options.onProgress?.(done, total);
    });
    try {
      for await (const text of textStream(unpacked(bytes, gzip, name), recognition.encoding, name))
        rows.push(text);
      rows.end();
    } catch (error) {
      if (!(error instanceof OpenQuote)) throw error;
      problems.add('quote', () => ({
        code: 'FILE_TRUNCATED',
        file: name,
        line: error.line,
        got: error.message,
        expected: 'rows whose quotes are closed',
        fix: 'export or download the file again; it breaks off, or a quote is too many.',
      }));
    }
    files.push({ name, sha256: hash.digest('hex'), rows: rows.count() });
    mergeCounts(missing, values.missing);
    noteValues(pass, values);
  }
  problems.throwIfAny();
  if (pass.keeper === undefined) {
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: files[0]!.name,
      got: 'no row with a time',
      expected: 'rows of weather',
      fix: 'export it again.',
    });
  }
  const kept = pass.keeper.finish();
  const series: NativeSeries = {
    ...kept,
    fileStep_s: stamp.step_s,
    files,
    sha256: all.digest('hex'),
    stamp,
    missing,
    notes: [...pass.notes].map(([text, count]) => `${count} ${text}`),
  };
  return stamp.descending ? turned(series) : series;
}

/** What goes on from row to row and from file to file. */
interface Pass {
  recognition: DetectedFormat;
  problems: ProblemList;
  clock: ZoneClock;
  keeper?: RowKeeper;
  longitude_deg: number;
  previous_ms: number;
  /** The row before stood at a time the clock shows twice, at its first showing. */
  previousTwice: boolean;
  /** What was passed over, and how often. */
  notes: Map<string, number>;
}

/** One file's part of the pass. */
function filePass(pass: Pass, file: string, layout: Layout, index: number, values: RowValues) {
  const { recognition, problems, clock } = pass;
  const { stamp, columns } = recognition;
  const reader = stampReader(stamp.parts);
  const overruled = 'stated' in stamp.zone;
  const first = reader.columns.length;
  const { station } = recognition;
  const wanted = [
    ...reader.columns,
    ...columns.map(({ column }) => column),
    ...(station === undefined ? [] : [station.column]),
  ];
  const field = layout.headings[reader.columns[0]!];
  const where = (line: number) => ({ file, line, ...(field ? { field } : {}) });
  const step_ms = stamp.step_s * 1000;
  const direction = stamp.descending ? -1 : 1;
  const kept = new Float64Array(columns.length);
  const preamble = new Set(layout.preamble.map((line) => line.trim()));
  const most =
    layout.headings.length > 0 ? Math.max(layout.headings.length, layout.width) : Number.POSITIVE_INFINITY;
  let count = 0;
  let width = 0;
  let widthBefore = 0;
  let lastLine = 0;
  let fewest = Number.POSITIVE_INFINITY;
  let lastDecimals = 0;
  let lastCell = '';
  let unclosed = false;
  const note = (text: string): void => {
    pass.notes.set(text, (pass.notes.get(text) ?? 0) + 1);
  };

  const take = (cells: string[], cellCount: number, line: number, last: boolean): void => {
    if (last && count > 0 && cellCount < width && cellCount < layout.width && /^(\d|$)/.test(cells[0]!)) {
      brokenOff(line, `a last row of ${cellCount} cells after rows of ${width}`);
      return;
    }
    if (station !== undefined && cells[wanted.length - 1]!.trim() !== station.name) return;
    const wall_ms = reader.read(cells, 0);
    if (Number.isNaN(wall_ms)) {
      notARow(cells, line, last);
      return;
    }
    const offset_ms = overruled ? Number.NaN : reader.offset_ms();
    const laid = stamp.typicalYear ? nominalYear(wall_ms) : wall_ms;
    if (Number.isNaN(laid)) {
      note('rows of 29 February left out: the typical year has 365 days');
      return;
    }
    let utc_ms = Number.isNaN(offset_ms) ? clock.toUtc(laid) : laid - offset_ms;
    if (stamp.typicalYear && utc_ms < pass.previous_ms - 300 * DAY_MS) utc_ms += YEAR_MS;
    if (count > 0) {
      widthBefore = width;
      fewest = Math.min(fewest, lastDecimals);
    }
    count++;
    width = cellCount;
    lastLine = line;
    lastCell = cells[cells.length - 1]!;
    lastDecimals = decimals(lastCell);
    unclosed = last;
    if (cellCount > most && layout.delimiter === ',') wideRow(cellCount, line);
    if (Number.isNaN(utc_ms)) {
      values.read(cells, first, line, stamp.step_s);
      if (values.values.every(Number.isNaN)) {
        note('rows without values at a time that the clock skips, left out');
        return;
      }
      problems.add('skipped', () => ({
        ...where(line),
        code: 'WEATHER_STAMP_UNREADABLE',
        got: `${stampText(cells)}, a time that the clock of ${zoneName()} skips`,
        expected: 'times that exist on that clock',
        fix: 'is the clock on standard time all year? Then --zone +01:00 or the like (in a scenario, weather.zone).',
      }));
      return;
    }
    const ahead_ms = (utc_ms - pass.previous_ms) * direction;
    values.read(cells, first, line, Math.abs(utc_ms - pass.previous_ms) / 1000);
    if (ahead_ms <= 0) {
      if (ahead_ms === 0 && sameValues(values.values)) note('rows that repeat the one before, left out');
      else outOfOrder(ahead_ms, utc_ms, cells, line);
      return;
    }
    noteTwice(wall_ms, utc_ms);
    pass.keeper ??= newKeeper(utc_ms);
    pass.keeper.add(utc_ms, values.values, line, index);
    kept.set(values.values);
    pass.previous_ms = utc_ms;
  };

  const sameValues = (now: Float64Array): boolean => now.every((value, q) => Object.is(value, kept[q]));

  const newKeeper = (first_ms: number): RowKeeper => {
    const names = columns.map(({ quantity }): QuantityName => quantity);
    const sums = names.map((name) => name === 'rain');
    if (stamp.irregular) return loggerKeeper(names, sums, 300_000);
    const joins = stamp.step_s < JOINED_S && JOINED_S % stamp.step_s === 0 && !stamp.descending;
    if (!joins) return rowKeeper(names, stamp.step_s);
    return stepJoiner(names, stamp.step_s, first_ms - Math.floor(first_ms / step_ms) * step_ms, sums);
  };

  /** A line without a time: a repeated heading, a comment, a footer; or a broken stamp. */
  const notARow = (cells: string[], line: number, last: boolean): void => {
    const text = reader.columns
      .map((_, c) => cells[c])
      .join(' ')
      .trim();
    const isHeading = reader.columns.some((column, c) => {
      const heading = layout.headings[column];
      return heading !== undefined && heading !== '' && cells[c] === heading;
    });
    if (isHeading || preamble.has(text)) {
      note('lines that repeat the heading or the preamble');
      return;
    }
    if (/^[\s"]*(#|%|!|\/\/|\*)/.test(cells[0]!)) {
      note('comment lines');
      return;
    }
    if (last && /^\d/.test(text)) {
      brokenOff(line, `a last line that breaks off after ${quotedCell(text)}`);
      return;
    }
    const hasValue = columns.some((_, q) => /^[+-]?[\d.,]+$/.test(cells[first + q]!));
    const hasFigures = reader.columns.every((_, c) => /\d/.test(cells[c]!));
    if (!hasValue || !hasFigures) {
      note('lines that are no rows (footers, notes)');
      return;
    }
    problems.add('stamp', () => ({
      ...where(line),
      code: 'WEATHER_STAMP_UNREADABLE',
      got: quotedCell(text),
      expected: `a time that exists, written as in the other rows: ${stamp.style}`,
      fix: 'correct the stamp.',
    }));
  };

  const stampText = (cells: string[]): string => quotedCell(reader.columns.map((_, c) => cells[c]).join(' '));
  const zoneName = (): string => (stamp.zone.kind === 'civil' ? stamp.zone.zone : stamp.zone.words);

  const outOfOrder = (ahead_ms: number, utc_ms: number, cells: string[], line: number): void => {
    const fixed = stamp.zone.kind !== 'civil' && stamp.zone.kind !== 'each';
    const wall_ms = utc_ms + (stamp.zone.kind === 'fixed' ? stamp.zone.offset_min * 60_000 : 0);
    const zones = fixed ? doublingZones(wall_ms, pass.longitude_deg) : [];
    const typed = zones.map((zone) => `--zone ${zone}`);
    const daylight = fixed
      ? ` If the clock keeps daylight saving time: ${typed.join(', or ') || '--zone Europe/Berlin or the like'} (in a scenario, weather.zone).`
      : '';
    problems.add(ahead_ms === 0 ? 'duplicate' : 'disorder', () => ({
      ...where(line),
      code: ahead_ms === 0 ? 'WEATHER_DUPLICATE' : 'WEATHER_DISORDER',
      got:
        ahead_ms === 0
          ? `${stampText(cells)} again, with other values`
          : `${stampText(cells)} (${utcText(utc_ms)}) after ${utcText(pass.previous_ms)}`,
      expected: 'each time once, in order',
      fix: `take one of the two away, or sort the rows.${daylight}`,
      ...(typed.length > 0 ? { typed } : {}),
    }));
  };

  /** An hour that the clock shows twice should stand there twice; home stations keep it once. */
  const noteTwice = (wall_ms: number, utc_ms: number): void => {
    if (stamp.zone.kind !== 'civil' || stamp.irregular) return;
    const apart = (utc_ms - pass.previous_ms) * direction;
    if (pass.previousTwice && apart === step_ms + HOUR_MS)
      note('hours that the clock shows twice stand in the file once; the other is a gap');
    pass.previousTwice = clock.twice(wall_ms);
  };

  const brokenOff = (line: number, got: string): void => {
    problems.add('broken off', () => ({
      file,
      line,
      code: 'FILE_TRUNCATED',
      got,
      expected: 'a last row like the ones before it',
      fix: 'export or download the file again; it ends in the middle of a row.',
    }));
  };

  const wideRow = (cellCount: number, line: number): void => {
    problems.add('wide row', () => ({
      code: 'WEATHER_VALUE_NOT_NUMBER',
      file,
      line,
      got: `a row of ${cellCount} cells`,
      expected: `${most} cells as in the other rows`,
      fix: 'are there decimal commas? Write decimals with a point.',
    }));
  };

  const splitter = rowSplitter(layout.delimiter, wanted, layout.firstDataLine, take);
  return {
    push: splitter.push,
    count: () => count,
    end: (): void => {
      splitter.end();
      const short = width < widthBefore && width < layout.width;
      const cut = unclosed && lastDecimals < fewest && count > 2;
      if (count > 1 && (short || cut)) {
        const cells = `a last row of ${width} cells after rows of ${widthBefore}`;
        const end = `a last row that ends in "${lastCell}", shorter than all before it, with no line break`;
        brokenOff(lastLine, short ? cells : end);
      }
    },
  };
}

function isPacked(source: TableSource): boolean {
  const start = source.readAt(0, 2);
  return start[0] === 0x1f && start[1] === 0x8b;
}

async function* hashed(
  chunks: AsyncIterable<Uint8Array>,
  hashes: readonly Hash[],
  told: (length: number) => void,
): AsyncIterable<Uint8Array> {
  for await (const chunk of chunks) {
    for (const hash of hashes) hash.update(chunk);
    told(chunk.length);
    yield chunk;
  }
}

/** Digits after the mark; 0 without one, -1 for an empty cell, so that a cut cell is less than a whole one. */
function decimals(text: string): number {
  if (text === '') return -1;
  const mark = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  return mark === -1 ? 0 : text.length - mark - 1;
}

function mergeCounts(into: NativeSeries['missing'], from: NativeSeries['missing']): void {
  for (const [quantity, counts] of Object.entries(from) as [QuantityName, Record<string, number>][]) {
    into[quantity] ??= {};
    for (const [code, count] of Object.entries(counts))
      into[quantity][code] = (into[quantity][code] ?? 0) + count;
  }
}

function noteValues(pass: Pass, values: RowValues): void {
  for (const [quantity, count] of Object.entries(values.unreadable)) {
    const text = `cells of ${quantity} that are no numbers, taken as missing`;
    pass.notes.set(text, (pass.notes.get(text) ?? 0) + count);
  }
  for (const [quantity, count] of Object.entries(values.traces)) {
    const text = `readings of -1 of ${quantity}, taken as a trace of nothing (0)`;
    pass.notes.set(text, (pass.notes.get(text) ?? 0) + count);
  }
}

/** The same series with its rows turned round, for files with the newest row first. */
function turned(series: NativeSeries): NativeSeries {
  for (const column of Object.values(series.columns)) column.reverse();
  series.stamp_ms.reverse();
  series.line.reverse();
  series.file.reverse();
  return series;
}
