import { lifeCsv } from './lifeCsv.ts';
import { type LivesOf, lifeJson } from './lifeJson.ts';
import { lifePage } from './page/lifePage.ts';
import { program } from './program.ts';
import { type WrittenResult, writeResult } from './writeFiles.ts';

const [CSV, PAGE, JSON_FILE] = ['life.csv', 'report.html', 'life.json'] as const;

/**
 * Writes the files of a scenario's lives into `<out>/life-<name>/`, all of them or none, life.json last; of a part of
 * them into a folder within where there is a whole one.
 *
 * in: lives, sweeps and their scenario; out, folder that gets one folder per result; undefined to write nothing
 * throws: Error of the disk (no permission, no space)
 */
export function writeLife(of: LivesOf, out: string | undefined): WrittenResult {
  const { lives, scenario } = of;
  const place = {
    out,
    name: `life-${scenario.name}`,
    page: PAGE,
    json: JSON_FILE,
    known: [CSV, PAGE, JSON_FILE],
    partial: lives.partial !== undefined,
  };
  return writeResult(place, (add) => {
    add(CSV, lifeCsv(lives));
    return {
      page: (files) => lifePage(of, files),
      json: (sums) => lifeJson(of, program(), sums),
    };
  });
}
