import { join } from 'node:path';
import { lifeCsv } from './lifeCsv.ts';
import { type LivesOf, lifeJson } from './lifeJson.ts';
import { lifePage } from './page/lifePage.ts';
import { program } from './program.ts';
import { UnfinishedFiles } from './UnfinishedFiles.ts';
import { PARTIAL, resultFolder, takeAway } from './writeFiles.ts';

/** The files of lives, as they were written. */
export interface WrittenLife {
  /** The folder's name below that of all: 'life-', then the scenario's name. */
  folder: string;
  /** Names of the files in it, life.json last. */
  files: string[];
  /** The text of life.json, byte for byte. */
  json: string;
}

const [CSV, PAGE, JSON_FILE] = ['life.csv', 'report.html', 'life.json'] as const;
const FILES_OF_LIVES = [CSV, PAGE, JSON_FILE];

/**
 * Writes the files of a scenario's lives into `<out>/life-<name>/`, all of them or none, life.json last; of a part of
 * them into a folder within where there is a whole one.
 *
 * in: lives, sweeps and their scenario; out, folder that gets one folder per result
 * throws: Error of the disk (no permission, no space)
 */
export function writeLife(of: LivesOf, out: string): WrittenLife {
  const { lives, scenario } = of;
  const own = `life-${scenario.name}`;
  const folder = resultFolder(out, own, JSON_FILE, lives.partial !== undefined);
  const unfinished = new UnfinishedFiles(join(out, own));
  const write = (name: string, text: string) => {
    unfinished.begin(name);
    unfinished.append(name, text);
    return text;
  };
  try {
    write(CSV, lifeCsv(lives));
    write(PAGE, lifePage(of, [CSV, JSON_FILE]));
    const json = write(JSON_FILE, lifeJson(of, program(), unfinished.sums()));
    unfinished.moveInto(join(out, folder), FILES_OF_LIVES);
    // What there was in part is overtaken.
    if (lives.partial === undefined) takeAway(join(out, own, PARTIAL), FILES_OF_LIVES);
    return { folder, files: FILES_OF_LIVES, json };
  } finally {
    unfinished.discard();
  }
}
