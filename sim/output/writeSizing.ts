import { basename, join, resolve } from 'node:path';
import { designScenario } from '../sizing/designScenario.ts';
import type { Sizing } from '../sizing/sizeScenario.ts';
import { designsCsv } from './designsCsv.ts';
import { sizePage } from './page/sizePage.ts';
import { program } from './program.ts';
import { RECOMMENDED, recommendedFile, recommendedOf } from './recommended.ts';
import { sizeJson } from './sizeJson.ts';
import { UnfinishedFiles } from './UnfinishedFiles.ts';
import { PARTIAL, resultFolder, takeAway } from './writeFiles.ts';

export interface WrittenSizing {
  /** Its own folder below that of all. */
  folder: string;
  /** Names of the files in it, size.json last. */
  files: string[];
  /** The text of size.json, byte for byte. */
  json: string;
}

const [DESIGNS, PAGE, JSON_FILE] = ['designs.csv', 'report.html', 'size.json'] as const;

/**
 * Writes the files of a sizing into `<out>/size-<name>/`, all of them or none, size.json last; what is there of one that
 * was interrupted goes into `partial/` below it where a whole one stands already.
 *
 * in: sizing, with an answer at least; out, folder that gets one folder per result
 * throws: Error of the disk (no permission, no space)
 */
export function writeSizing(sizing: Sizing, out: string): WrittenSizing {
  const { scenario, answers } = sizing;
  const whole = `size-${scenario.name}`;
  const partial = answers.some((answer) => answer.partial !== undefined);
  const folder = resultFolder(out, whole, JSON_FILE, partial);
  const files = new UnfinishedFiles(join(out, whole));
  const add = (name: string, text: string) => {
    files.begin(name);
    files.append(name, text);
  };
  try {
    add(DESIGNS, designsCsv(sizing));
    const target = join(out, folder);
    for (const { file, text } of recommendedScenarios(sizing, target)) add(file, text);
    add(PAGE, sizePage(sizing, [...Object.keys(files.sums()), JSON_FILE]));
    const json = sizeJson(sizing, program(), files.sums());
    add(JSON_FILE, json);
    const names = Object.keys(files.sums());
    const known = knownFiles(sizing);
    files.moveInto(target, known);
    if (!partial) takeAway(join(out, whole, PARTIAL), known);
    return { folder, files: names, json };
  } finally {
    files.discard();
  }
}

/** A scenario's name is no longer. */
const LONGEST_NAME = 64;

/** A scenario of each recommended design, which `run` runs to the same nights. */
function recommendedScenarios(
  { answers, scenario }: Sizing,
  folder: string,
): { file: string; text: string }[] {
  return answers.flatMap((answer) =>
    recommendedOf(answer, answers.length > 1).map(({ file, sized }) => {
      const name = `${scenario.name}-${basename(file, '.yaml')}`
        .slice(0, LONGEST_NAME)
        .replace(/[\s.]+$/, '');
      const to = { folder: resolve(folder), name };
      return { file, text: designScenario(answer.space, sized.design, to) };
    }),
  );
}

/** All that may stand there from an earlier time. */
function knownFiles({ scenario }: Sizing): string[] {
  const spots = [undefined, ...scenario.spots.map(({ name }) => name)];
  return [
    DESIGNS,
    PAGE,
    ...spots.flatMap((spot) => RECOMMENDED.map((key) => recommendedFile(key, spot))),
    JSON_FILE,
  ];
}
