import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { HOUR_MS } from '../../common/time.ts';
import { problemList } from '../../weather/problemList.ts';
import { readHourlySeries } from '../../weather/readHourlyCsv.ts';
import { utcText } from '../../weather/utcText.ts';
import { type SnowLying, throughSnow } from '../cover/snowLying.ts';
import type { ReadFile, Shading, SpotParams } from '../spotParams.ts';

/** From this tilt snow slides off a lid. */
const SLIDES_DEG = 45;

/** Whether no snow stays on the lid of a spot: brushed off, steep, or the side of a jar. */
export function lidIsClear({ cover, snow, cellTilt_deg }: SpotParams): boolean {
  return !snow.on_lid || cellTilt_deg >= SLIDES_DEG || (cover !== 'none' && cover.kind === 'side-lit');
}

/** A stretch of hours. */
interface Hours {
  start_ms: number;
  count: number;
}

/**
 * Share of all light that passes dirt, snow and shading, without unit, by hour.
 *
 * in: spot; snow, undefined where the weather tells of none; hours; readFile, for a shading trace
 * out: one share an hour, 0 to 1; undefined where all of the light passes
 * throws: SPOT_PROFILE; what `readHourlySeries` throws
 */
export function passingShares(
  spot: SpotParams,
  snow: SnowLying | undefined,
  hours: Hours,
  readFile: ReadFile,
): Float64Array | undefined {
  const { shading, dirtLoss } = spot;
  const lying = snow !== undefined && !lidIsClear(spot) ? snow.lid_mm : undefined;
  if (shading === undefined && dirtLoss === 0 && lying === undefined) return undefined;
  const shares =
    shading !== undefined && 'file' in shading
      ? shadingTrace({ name: shading.file, bytes: readFile(shading.file) }, shading, hours)
      : new Float64Array(hours.count).fill(shading?.factor ?? 1);
  return shares.map((share, i) => share * ((1 - dirtLoss) * throughSnow(lying?.[i] ?? 0)));
}

/** Share of the light that passes at each of the hours, from a CSV file with a column by stamp. */
function shadingTrace(
  file: { name: string; bytes: Uint8Array },
  { column, unit, stamp }: Exclude<Shading, { factor: number }>,
  hours: Hours,
): Float64Array {
  const series = readHourlySeries(file, { stamp, columns: { share: { column, unit } }, missing: [''] });
  const shares = series.columns.share!;
  const problems = problemList();
  shares.forEach((share, i) => {
    if (share >= 0 && share <= 1) return;
    problems.add('range', () => ({
      code: 'SPOT_PROFILE',
      file: file.name,
      line: series.line[i]!,
      field: column,
      got: unit === '%' ? `${share * 100} %` : `${share}`,
      expected: unit === '%' ? 'a share from 0 to 100 %' : 'a share from 0 to 1',
      ...(share > 1 && share <= 100 && { fix: 'say unit: "%" if the column holds percent.' }),
    }));
  });
  const offset = (hours.start_ms - series.start_ms) / HOUR_MS;
  const covered = Number.isInteger(offset) && offset >= 0 && offset + hours.count <= series.count;
  const all: Problem[] = problems.list();
  if (!covered) {
    const last_ms = (start_ms: number, count: number) => start_ms + count * HOUR_MS;
    all.push({
      code: 'SPOT_PROFILE',
      file: file.name,
      field: stamp.column,
      got: `hours from ${utcText(series.start_ms)} to ${utcText(last_ms(series.start_ms, series.count))}`,
      expected: `every hour of the weather, from ${utcText(hours.start_ms)} to ${utcText(last_ms(hours.start_ms, hours.count))}`,
      fix: 'extend the trace, or give a fixed factor instead.',
    });
  }
  if (all.length > 0) throw new InputProblem(all);
  return shares.slice(offset, offset + hours.count);
}
