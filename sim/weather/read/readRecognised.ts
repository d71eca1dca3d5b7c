import { createHash, type Hash } from 'node:crypto';
import { InputProblem } from '../../common/InputProblem.ts';
import { emptyFile, textStream, unpacked } from '../../tables/decodeText.ts';
import type { TableSource } from '../../tables/TableSource.ts';
import type { DetectedFormat } from '../recognise/DetectedFormat.ts';
import { FilePass } from './FilePass.ts';
import type { NativeSeries } from './NativeSeries.ts';
import { Pass, type SaidOfRows } from './Pass.ts';

export interface ReadOptions extends SaidOfRows {
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
  if (stamp.zone.kind === 'solar' && options.longitude_deg === undefined) {
    throw new InputProblem({
      code: 'SCENARIO_MISSING_KEY',
      field: 'site.longitude_deg',
      got: 'stamps in true solar time and no longitude',
      expected: 'the longitude, to turn them into UTC',
      fix: '--place 54,10, or the like (in a scenario, site).',
    });
  }
  const pass = new Pass(recognition, options);
  const all = createHash('sha256');
  const files: NativeSeries['files'] = [];
  const total = sources.reduce((sum, { size }) => sum + size, 0);
  let done = 0;
  for (const { name, layout } of recognition.files) {
    const source = sources.find((candidate) => candidate.name === name)!;
    const hash = createHash('sha256');
    const rows = new FilePass(pass, name, layout);
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
    missing: pass.missing,
    notes: pass.notes(),
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
  return series;
}
