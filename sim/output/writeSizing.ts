import type { Scenario } from '../scenario/Scenario.ts';
import type { Sizing } from '../sizing/sizeScenario.ts';
import type { LikelySizing } from '../sizing/winters/sizeByWinters.ts';
import { designsCsv } from './designsCsv.ts';
import { likelyJson } from './likelyJson.ts';
import { likelyPage } from './page/likelyPage.ts';
import { sizePage } from './page/sizePage.ts';
import { program } from './program.ts';
import { RECOMMENDED, recommendedFile, recommendedScenarios } from './recommended.ts';
import { sizeJson } from './sizeJson.ts';
import { type WrittenResult, writeResult } from './writeFiles.ts';

const [DESIGNS, PAGE, JSON_FILE] = ['designs.csv', 'report.html', 'size.json'] as const;

/**
 * Writes the files of a sizing into `<out>/size-<name>/`, all of them or none, size.json last; what is there of one that
 * was interrupted goes into `partial/` below it where a whole one stands already.
 *
 * in: sizing, with an answer at least; out, folder that gets one folder per result; undefined to write nothing
 * throws: Error of the disk (no permission, no space)
 */
export function writeSizing(sizing: Sizing, out: string | undefined): WrittenResult {
  const { scenario, answers } = sizing;
  return writeResult(placeOf(sizing, out), (add, folder) => {
    add(DESIGNS, designsCsv(sizing));
    for (const { file, text } of recommendedScenarios(scenario, answers, folder)) add(file, text);
    return {
      page: (files) => sizePage(sizing, files),
      json: (sums) => sizeJson(sizing, program(), sums),
    };
  });
}

/** The same of a sizing by made winters, in place of one by the weather on file. */
export function writeLikelySizing(sizing: LikelySizing, out: string | undefined): WrittenResult {
  const { scenario, answers } = sizing;
  return writeResult(placeOf(sizing, out), (add, folder) => {
    for (const { file, text } of recommendedScenarios(scenario, answers, folder)) add(file, text);
    return {
      page: (files) => likelyPage(sizing, files),
      json: (sums) => likelyJson(sizing, program(), sums),
    };
  });
}

interface Answered {
  scenario: Scenario;
  answers: readonly { partial?: object }[];
}

function placeOf({ scenario, answers }: Answered, out: string | undefined) {
  return {
    out,
    name: `size-${scenario.name}`,
    page: PAGE,
    json: JSON_FILE,
    known: knownFiles(scenario),
    partial: answers.some(({ partial }) => partial !== undefined),
  };
}

/** All that may stand there from an earlier time. */
function knownFiles({ spots }: Scenario): string[] {
  const places = [undefined, ...spots.map(({ name }) => name)];
  return [
    DESIGNS,
    PAGE,
    ...places.flatMap((spot) => RECOMMENDED.map((key) => recommendedFile(key, spot))),
    JSON_FILE,
  ];
}
