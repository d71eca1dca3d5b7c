import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { problemList } from '../../common/problemList.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import { readHourlyTable } from '../../tables/hourlyTable.ts';
import type { ReadFile, Shading } from '../spotParams.ts';

/** A stretch of hours. */
interface Hours {
  start_ms: number;
  count: number;
}

/**
 * Share of all light that passes shading, without unit, by hour.
 *
 * in: shading; hours; readFile, for a trace
 * out: one share an hour, 0 to 1
 * throws: SPOT_PROFILE; what `readHourlyTable` throws
 */
export function shadingShares(shading: Shading | undefined, hours: Hours, readFile: ReadFile): Float64Array {
  return shading !== undefined && 'file' in shading
    ? shadingTrace({ name: shading.file, bytes: readFile(shading.file) }, shading, hours)
    : new Float64Array(hours.count).fill(shading?.factor ?? 1);
}

/** Share of the light that passes at each of the hours, from a CSV file with a column by stamp. */
function shadingTrace(
  file: { name: string; bytes: Uint8Array },
  { column, unit, stamp }: Exclude<Shading, { factor: number }>,
  hours: Hours,
): Float64Array {
  const series = readHourlyTable(file, { stamp, columns: { share: { column, unit } }, missing: [''] });
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
