import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { HOUR_MS } from '../../common/time.ts';
import type { HourlyMapping } from '../../weather/examineHourlyCsv.ts';
import { problemList } from '../../weather/problemList.ts';
import { readHourlySeries } from '../../weather/readHourlyCsv.ts';
import { utcText } from '../../weather/utcText.ts';

/** The hours a trace must cover. */
export interface Hours {
  start_ms: number;
  count: number;
}

/**
 * Share of the light that passes at each hour, without unit, from a CSV file with a column by stamp.
 *
 * in: file, name and bytes; stamp, column and unit as the scenario maps them; hours to cover
 * out: one share an hour, 0 to 1, over the hours asked for
 * throws: SPOT_PROFILE for a share outside 0 to 1 or hours not covered; what `readHourlySeries` throws
 */
export function shadingTrace(
  file: { name: string; bytes: Uint8Array },
  mapping: { stamp: HourlyMapping['stamp']; column: string; unit: string },
  hours: Hours,
): Float64Array {
  const { column, unit, stamp } = mapping;
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
      ...(share > 1 && share <= 100 ? { fix: 'say unit: "%" if the column holds percent.' } : {}),
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
