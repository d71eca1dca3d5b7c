import { InputProblem } from '../../common/InputProblem.ts';
import { problemList } from '../../common/problemList.ts';
import { readHourlyTable } from '../../tables/hourlyTable.ts';
import type { NamedBytes } from '../../tables/TableSource.ts';
import type { ShadingTrace } from '../SpotFiles.ts';
import type { Shading } from '../spotParams.ts';

/**
 * Share of the light that passes, without unit, by the hour, from a CSV file with a column by stamp.
 *
 * in: file, name and bytes; its mapping
 * throws: SPOT_PROFILE for what is no share; what `readHourlyTable` throws
 */
export function readShadingTrace(
  file: NamedBytes,
  { column, unit, stamp }: Extract<Shading, { file: string }>,
): ShadingTrace {
  const { start_ms, columns, line } = readHourlyTable(file, {
    stamp,
    columns: { share: { column, unit } },
    missing: [''],
  });
  const share = columns.share!;
  const problems = problemList();
  share.forEach((each, i) => {
    if (each >= 0 && each <= 1) return;
    problems.add('range', () => ({
      code: 'SPOT_PROFILE',
      file: file.name,
      line: line[i]!,
      field: column,
      got: unit === '%' ? `${each * 100} %` : `${each}`,
      expected: unit === '%' ? 'a share from 0 to 100 %' : 'a share from 0 to 1',
      ...(each > 1 && each <= 100 && { fix: 'say unit: "%" if the column holds percent.' }),
    }));
  });
  const all = problems.list();
  if (all.length > 0) throw new InputProblem(all);
  return { start_ms, share };
}
