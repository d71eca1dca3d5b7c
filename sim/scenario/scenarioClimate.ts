import { createHash } from 'node:crypto';
import { checkClimate } from '../climate/checkClimate.ts';
import { type ClimateSection, climateSchema } from '../climate/schema.ts';
import { type KeyPath, readDocument } from '../common/document.ts';
import { type Problem, type Report, reportBelow } from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from '../common/problemList.ts';
import { siteSchema } from '../sun/Site.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { issueProblems } from './issueProblems.ts';
import { isMap } from './paths.ts';
import { placedProblem } from './placedProblem.ts';
import { readQuantities } from './readQuantities.ts';
import { scenarioFileIfThere } from './scenarioFile.ts';
import { misspelt, type SchemaProblem } from './unknownKey.ts';

/** What a scenario says of the climate of its place. */
export interface ScenarioClimate {
  section: ClimateSection;
  /** The climate file under the name that results may show, and the SHA-256 of its bytes; not there where the scenario holds it all. */
  file?: string;
  sha256?: string;
}

const PATH = ['weather', 'climate'] as const;

/**
 * The climate of a scenario, from its own keys or from the file that it names.
 *
 * in: value, the scenario with its parts merged in, checked or not; folder, absolute, it lies in; isSound, whether the
 *   schema found nothing at or below a path; report, takes what is wrong in the scenario
 * out: undefined where there is none, or it is wrong
 * throws: InputProblem about the climate file, placed in it
 */
export function scenarioClimate(
  value: Record<string, unknown>,
  folder: string,
  isSound: (section: KeyPath) => boolean,
  report: Report,
): ScenarioClimate | undefined {
  const given = isMap(value.weather) ? value.weather.climate : undefined;
  if (!isMap(given) || !isSound(PATH) || !isSound(['site'])) return undefined;
  const site = siteSchema.parse(value.site);
  if (given.file === undefined) {
    const section = climateSchema.parse(given);
    checkClimate(section, site, reportBelow(report, ...PATH));
    return { section };
  }
  const others = Object.keys(given).filter((key) => key !== 'file');
  if (others.length > 0) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...PATH, others[0]!],
      got: `${others.join(', ')} beside a climate file`,
      expected: 'the file alone, or its keys here',
      fix: 'change it in the file, or take file away and write all keys here.',
    });
    return undefined;
  }
  const file = scenarioFileIfThere({ folder }, String(given.file));
  if (file === undefined) return undefined;
  return {
    section: sectionOfFile(file, site),
    file: file.name,
    sha256: createHash('sha256').update(file.bytes).digest('hex'),
  };
}

function sectionOfFile(file: NamedBytes, site: Parameters<typeof checkClimate>[1]): ClimateSection {
  const document = readDocument(file);
  const written = { weather: { climate: document.value } };
  const root = readQuantities(written).value;
  const parsed = climateSchema.safeParse((root.weather as typeof written.weather).climate);
  const problems: SchemaProblem[] = issueProblems(parsed.error?.issues ?? [], root, written, PATH);
  const report: Report = (problem) => problems.push(problem);
  if (parsed.data?.file !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...PATH, 'file'],
      got: 'a climate file that names another',
      expected: 'the keys themselves',
      fix: 'name that other file in the scenario.',
    });
  } else if (parsed.success) checkClimate(parsed.data, site, reportBelow(report, ...PATH));
  const isMisspelt = misspelt(problems);
  const list = problemList(MOST_OF_A_CODE);
  for (const problem of problems) {
    if (!isMisspelt(problem))
      list.add(
        problem.code,
        (): Problem => placedProblem(problem, { document, file: file.name }, PATH.length),
      );
  }
  list.throwIfAny();
  return parsed.data!;
}
