import { diaryText } from './diary.ts';
import { dischargeCurveCsv } from './dischargeCurve.ts';
import { genericPartsYaml } from './genericParts.ts';
import { houseCsv } from './houseCsv.ts';
import { inventedWinters } from './inventedWinters.ts';
import { INVENTED_SEED, inventedYear, inventedYearCsv, yearFrame } from './inventedYear.ts';
import { lightOnCellCsv } from './lightOnCell.ts';
import { daySums, otherLayouts } from './otherLayouts.ts';
import { serviceLogCsv } from './serviceLog.ts';

/** Text of every made file of data-samples/, by file name; of one that ends in .gz before it is packed. The same bytes on every machine. */
export async function sampleFiles(): Promise<Record<string, string>> {
  const year = inventedYear(INVENTED_SEED, yearFrame());
  const yearCsv = inventedYearCsv(year);
  return {
    'invented-year.csv': yearCsv,
    // In whole J/cm2, so that it packs small.
    'invented-winters.csv.gz': daySums(inventedWinters(), 0),
    'house.csv': houseCsv(),
    'light-on-cell.csv': lightOnCellCsv(),
    'discharge-curve.csv': dischargeCurveCsv(),
    'service-log.csv': await serviceLogCsv(yearCsv),
    'generic-parts.yaml': genericPartsYaml(),
    'diary.txt': await diaryText(yearCsv),
    ...otherLayouts(year),
  };
}
