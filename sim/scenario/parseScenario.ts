import { createHash } from 'node:crypto';
import { basename, dirname, extname, resolve } from 'node:path';
import { type KeyPath, plainDocument, readDocument, type TextDocument } from '../common/document.ts';
import {
  InputProblem,
  type Problem,
  type Report,
  reportBelow,
  type ValueProblem,
} from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from '../common/problemList.ts';
import { spotSchema } from '../spot/schema.ts';
import { spotParams } from '../spot/spotParams.ts';
import { siteFromSchema } from '../sun/Site.ts';
import { INPUT_LIMITS, tooManyBytes } from '../tables/TableSource.ts';
import { weatherSchema } from '../weather/schema.ts';
import { checkWhole } from './checkWhole.ts';
import { choicesOf } from './choices.ts';
import { issueProblems } from './issueProblems.ts';
import { lampsOf } from './lampsOf.ts';
import { type MergedScenario, mergeParts } from './mergeParts.ts';
import { assumptionsOf, originsOf } from './originsOf.ts';
import { type OwnParts, ownParts, pathInOwnFile } from './ownParts.ts';
import { libraryIn } from './PartShelf.ts';
import { entriesOf, PathSet, valueAt } from './paths.ts';
import { placedProblem } from './placedProblem.ts';
import { questionsOf } from './questions.ts';
import { readQuantities } from './readQuantities.ts';
import { resolveScenario } from './resolveScenario.ts';
import type { Scenario, ScenarioSource, ScenarioSpot } from './Scenario.ts';
import { scenarioClimate } from './scenarioClimate.ts';
import { publicName } from './scenarioFile.ts';
import { type ScenarioValue, scenarioSchema } from './schema.ts';
import { misspelt, type SchemaProblem } from './unknownKey.ts';

/** Where what a scenario names lies, and what it is called. */
export interface ParseOptions {
  /** Folder that the files it names are relative to; that of `path` unless stated. */
  folder?: string;
  /** The file it would be: its name in messages, and without its ending that of the scenario, unless that says its own. */
  path?: string;
}

/**
 * A scenario from its YAML text, or from the same keys as a plain object; checked as `loadScenario` checks a file. The
 * files it names must be there, the weather's is not read.
 *
 * in: source, text or object, whose values JSON can hold; options
 * out: the scenario
 * throws: FILE_*, YAML_*, SCENARIO_*, LAMP_CUTOFF_ABOVE_REACHABLE; all problems together, of a text by line, of an object
 *   by key alone
 */
export function parseScenario(
  source: string | object,
  { path = 'scenario', folder = dirname(path) }: ParseOptions = {},
): Scenario {
  const written = typeof source === 'string' ? new TextEncoder().encode(source) : plainCopy(source, path);
  if (written instanceof Uint8Array && written.length > INPUT_LIMITS.scenario_B)
    throw tooManyBytes(path, INPUT_LIMITS.scenario_B);
  return scenarioOf({ written, file: path, folder: resolve(folder), called: nameOf(path) });
}

/** An object as JSON would bring it over; numbers that it cannot hold as words, for the schema to refuse. */
function plainCopy(source: object, file: string): Record<string, unknown> {
  const wrong = (got: string, expected: string) =>
    new InputProblem({ code: 'SCENARIO_WRONG_TYPE', file, got, expected });
  if (Array.isArray(source)) throw wrong('a list', 'an object with the keys of a scenario');
  try {
    const text = JSON.stringify(source, (_, value: unknown) =>
      typeof value === 'number' && !Number.isFinite(value) ? String(value) : value,
    );
    return JSON.parse(text) as Record<string, unknown>;
  } catch {
    throw wrong('an object that goes round in a circle, or an integer that is no number', 'plain values');
  }
}

/** What another thread makes a scenario from once more. in: scenario */
export function sourceOf({ written, file, folder, called }: ScenarioSource): ScenarioSource {
  return { written, file, folder, called };
}

/** A scenario from what it was written as. in: source. throws: as `parseScenario` */
export function scenarioOf(source: ScenarioSource): Scenario {
  const { written, file, folder, called } = source;
  const ofText = written instanceof Uint8Array;
  const document = ofText ? readDocument({ name: file, bytes: written }) : plainDocument(written);
  const problems: SchemaProblem[] = [];
  const report: Report = (problem) => problems.push(problem);

  const read = readQuantities(document.value);
  const { made: own, others: ownOthers } = orProblems(() => ownParts(read.value, folder, report));
  const shelf = own?.shelf ?? libraryIn(read.value.currency);
  const merged = mergeParts(read.value, shelf, report);
  const { value } = merged;
  const parsed = scenarioSchema.safeParse(value);
  const issues = issueProblems(parsed.error?.issues ?? [], value, document.value);
  issues.forEach(report);
  const wrong = new PathSet(issues.map(({ path }) => path));
  const isSound = (section: KeyPath) => !wrong.hasAtOrAbove(section) && !wrong.hasBelow(section);
  checkWhole(value, folder, isSound, report);
  const spots = spotsOf(value, isSound, report);
  const lamps = lampsOf(value, isSound, report);
  const choices = choicesOf({ value, document, shelf }, report);
  const { made: climate, others } = orProblems(() => scenarioClimate(value, folder, isSound, report));
  const found = problemsOf(problems, merged, { document, file }, own);
  if (!parsed.success || found.length + others.length + ownOthers.length > 0) {
    throw new InputProblem([...found, ...ownOthers, ...others]);
  }

  const { seed, site, weather = {}, start, promise, name = called } = parsed.data;
  const resolved = resolveScenario(parsed.data, name, lamps, document.value, own);
  const origins = originsOf(resolved, { document, texts: read.texts }, merged, own);
  return {
    ...sourceOf(source),
    name,
    sha256: createHash('sha256')
      .update(ofText ? written : JSON.stringify(written))
      .digest('hex'),
    seed,
    site: siteFromSchema(site),
    weather: weatherOnFile(weather, folder),
    climate,
    start,
    promise,
    spots,
    lamps,
    shelf,
    choices,
    currency: own?.currency ?? parsed.data.currency,
    resolved,
    origins,
    assumptions: assumptionsOf({ origins, resolved }),
    questions: questionsOf({ resolved, lamps }),
  };
}

/** The year on file that a scenario names, where it names one. */
function weatherOnFile(
  { climate: _, file, ...rest }: Partial<NonNullable<ScenarioValue['weather']>>,
  folder: string,
): Scenario['weather'] {
  if (file === undefined) return undefined;
  const section = weatherSchema.parse({ ...rest, file: publicName(file) });
  return { section, path: resolve(folder, file) };
}

/** What is made of a file that the scenario names, or what is wrong in it. */
function orProblems<Made>(make: () => Made): { made?: Made; others: readonly Problem[] } {
  try {
    return { made: make(), others: [] };
  } catch (error) {
    if (error instanceof InputProblem) return { others: error.problems };
    throw error;
  }
}

/** The file's name without its ending, made safe for a folder. */
export function nameOf(path: string): string {
  const plain = basename(path, extname(path)).replace(/[^\p{L}\p{N} ._-]/gu, '-');
  return plain.slice(0, 64).replace(/^[ ._-]+|[ .]+$/g, '') || 'scenario';
}

/** A file and where its keys stand. */
interface NamedDocument {
  document: TextDocument;
  file: string;
}

/**
 * Problems with their places, by line, those in the file of own parts last; without those that follow from another.
 *
 * in: problems, of the scenario; merged; written, its file; own, with the problems of its file
 */
function problemsOf(
  problems: readonly SchemaProblem[],
  merged: MergedScenario,
  written: NamedDocument,
  own: OwnParts | undefined,
): Problem[] {
  const sections = new PathSet(merged.unusable);
  const lost = own === undefined && valueAt(merged.value, ['parts', 'file']) !== undefined;
  const follows = ({ code, path }: ValueProblem) =>
    (code === 'SCENARIO_MISSING_KEY' && sections.hasAtOrAbove(path)) ||
    (code === 'SCENARIO_UNKNOWN_PART' && lost);
  const isMisspelt = misspelt(problems);
  const list = problemList(MOST_OF_A_CODE);
  const inOwn = new Map(
    own?.problems.map((problem) => [JSON.stringify([problem.code, problem.path]), problem]),
  );
  for (const problem of problems) {
    if (follows(problem) || isMisspelt(problem)) continue;
    const path = pathInOwnFile(problem.path, merged);
    const key = JSON.stringify([problem.code, path]);
    if (path === undefined) list.add(problem.code, () => placedProblem(problem, written));
    else if (!inOwn.has(key)) inOwn.set(key, { ...problem, path });
  }
  const ownList = problemList(MOST_OF_A_CODE);
  for (const problem of inOwn.values()) ownList.add(problem.code, () => placedProblem(problem, own!));
  return [...list.list(), ...ownList.list()];
}

/**
 * The spots of a scenario that can be made, with problems about the others.
 *
 * in: value, the scenario with its parts merged in; isSound, whether the schema found nothing at or below a path
 */
function spotsOf(
  value: Record<string, unknown>,
  isSound: (section: KeyPath) => boolean,
  report: Report,
): ScenarioSpot[] {
  return entriesOf(value.spots).flatMap(([name, given]) => {
    const path = ['spots', name];
    if (!isSound(path)) return [];
    const section = spotSchema.parse(given);
    const params = spotParams(section, reportBelow(report, ...path));
    return params === undefined ? [] : [{ name, section, params }];
  });
}
