import { createHash, type Hash } from 'node:crypto';
import { civilOffset } from '../../common/civilTime.ts';
import { InputProblem } from '../../common/InputProblem.ts';
import { problemList } from '../../common/problemList.ts';
import { DAY_MS } from '../../common/time.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import { emptyFile, textStream, unpacked } from '../../tables/decodeText.ts';
import type { TableSource } from '../../tables/TableSource.ts';
import type { DetectedFormat, ZoneClaim } from '../recognise/DetectedFormat.ts';
import { FilePass, type Pass, type ZoneClock } from './FilePass.ts';
import type { NativeSeries } from './NativeSeries.ts';
import { PassedOver, type SaidOfCells } from './RowValues.ts';

export interface ReadOptions extends SaidOfCells {
  /** For true solar time: east positive. */
  longitude_deg?: number | undefined;
  /** Told now and then how many of how many bytes are read. */
  onProgress?: ((done: number, total: number) => void) | undefined;
}

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
  const { stamp } = recognition;
  const { longitude_deg = Number.NaN } = options;
  if (stamp.zone.kind === 'solar' && Number.isNaN(longitude_deg)) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      field: 'site.longitude_deg',
      got: 'stamps in true solar time and no longitude',
      expected: 'the longitude, to turn them into UTC',
      fix: '--place 54,10, or the like (in a scenario, site).',
    });
  }
  const pass: Pass = {
    recognition,
    problems: problemList(),
    clock: zoneClock(stamp.zone, longitude_deg),
    longitude_deg,
    said: options,
    previous_ms: Number.NaN,
    previousTwice: false,
    passed: new PassedOver(),
  };
  const all = createHash('sha256');
  const files: NativeSeries['files'] = [];
  const total = sources.reduce((sum, { size }) => sum + size, 0);
  let done = 0;
  for (const [index, { name, layout }] of recognition.files.entries()) {
    const source = sources.find((candidate) => candidate.name === name)!;
    const hash = createHash('sha256');
    const rows = new FilePass(pass, name, layout, index);
    const bytes = hashed(source.chunks(), [hash, all], (length) => {
      done += length;
      options.onProgress?.(done, total);
    });
    const packed = unpacked(bytes, isPacked(source), name);
    for await (const text of textStream(packed, recognition.encoding, name)) rows.push(text);
    rows.end();
    files.push({ name, sha256: hash.digest('hex'), rows: rows.rows });
  }
  pass.problems.throwIfAny();
  if (pass.keeper === undefined) throw emptyFile(files[0]!.name, 'no row with a time');
  const series: NativeSeries = {
    ...pass.keeper.finish(),
    fileStep_s: stamp.step_s,
    files,
    sha256: all.digest('hex'),
    stamp,
    missing: pass.passed.missing,
    notes: pass.passed.notes(),
  };
  return stamp.descending ? turned(series) : series;
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

/** The same series with its rows turned round, for files with the newest row first. */
function turned(series: NativeSeries): NativeSeries {
  for (const column of Object.values(series.columns)) column.reverse();
  series.stamp_ms.reverse();
  series.line.reverse();
  series.file.reverse();
  return series;
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
