import { createHash } from 'node:crypto';
import { basename, dirname, extname, resolve } from 'node:path';
import type { Complain, Complaint } from '../common/Complaint.ts';
import { type KeyPath, readDocument, type TextDocument } from '../common/document.ts';
import { InputProblem, type Problem } from '../common/InputProblem.ts';
import { siteFromSchema } from '../sun/siteFromSchema.ts';
import { readTextFile } from '../weather/readTextFile.ts';
import { assumptionsOf } from './assumptionsOf.ts';
import { fileComplaints } from './fileComplaints.ts';
import { issueComplaints, type SchemaComplaint } from './issueComplaints.ts';
import { lampsOf } from './lampsOf.ts';
import { type MergedScenario, mergeParts } from './mergeParts.ts';
import { originsOf } from './originsOf.ts';
import { isBelow, samePath } from './paths.ts';
import { resolveScenario } from './resolveScenario.ts';
import type { Scenario } from './Scenario.ts';
import { publicName } from './scenarioFile.ts';
import { scenarioSchema } from './schema.ts';
import { spotsOf } from './spotsOf.ts';
import { weatherComplaints } from './weatherComplaints.ts';
import { wholeComplaints } from './wholeComplaints.ts';

/**
 * A scenario from its YAML file, checked, with its parts merged in and every default filled in. The weather it names
 * must be there but is not read.
 *
 * in: path of the file; file, its name in messages (the path by default)
 * out: the scenario
 * throws: FILE_*, YAML_*, SCENARIO_*, LAMP_FLOOR_ABOVE_CEILING; all problems of the file together, by line
 */
export function loadScenario(path: string, file = path): Scenario {
  const { bytes } = readTextFile(path, file);
  const document = readDocument({ name: file, bytes });
  const folder = resolve(dirname(path));
  const complaints: SchemaComplaint[] = [];
  const complain: Complain = (complaint) => complaints.push(complaint);

  const merged = mergeParts(document.value, complain);
  const { value } = merged;
  const parsed = scenarioSchema.safeParse(value);
  const unsound: KeyPath[] = [];
  if (!parsed.success) {
    const issues = issueComplaints(parsed.error.issues, value, document.value);
    complaints.push(...issues);
    unsound.push(...issues.map((complaint) => complaint.path));
  }
  complaints.push(...wholeComplaints(value), ...fileComplaints(value, folder));
  const isSound = (section: KeyPath) => !unsound.some((at) => isBelow(at, section) || isBelow(section, at));
  if (value.weather !== undefined && isSound(['weather'])) {
    complaints.push(...weatherComplaints(value.weather));
  }
  const spots = spotsOf(value, isSound, complain);
  const lamps = lampsOf(value, isSound, complain);
  if (!parsed.success || complaints.length > 0) {
    throw new InputProblem(problemsOf(complaints, merged, document, file));
  }

  const { seed, site, weather, start, promise, name = nameOf(path) } = parsed.data;
  const resolved = resolveScenario(parsed.data, name, lamps, document.value);
  const origins = originsOf(resolved, document, merged.supplied);
  return {
    file,
    folder,
    name,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    seed,
    site: siteFromSchema(site),
    ...(weather && {
      weather: {
        section: { ...weather, file: publicName(weather.file) },
        path: resolve(folder, weather.file),
      },
    }),
    start,
    promise,
    spots,
    lamps,
    resolved,
    origins,
    assumptions: assumptionsOf({ origins, resolved }),
  };
}

/** The file's name without its ending, made safe for a folder. */
function nameOf(path: string): string {
  const plain = basename(path, extname(path)).replace(/[^\p{L}\p{N} ._-]/gu, '-');
  return plain.slice(0, 64).replace(/^[ ._-]+|[ .]+$/g, '') || 'scenario';
}

/** Complaints with their places, by line; without those that follow from another. */
function problemsOf(
  complaints: readonly SchemaComplaint[],
  { unusable }: MergedScenario,
  document: TextDocument,
  file: string,
): Problem[] {
  const follows = ({ code, path }: Complaint) =>
    code === 'SCENARIO_MISSING_KEY' &&
    (unusable.some((section) => isBelow(path, section)) ||
      complaints.some(({ path: at, meant }) => meant && samePath([...at.slice(0, -1), meant], path)));
  return complaints
    .filter((complaint) => !follows(complaint))
    .map(({ code, path, got, expected, fix }): Problem => {
      const unknown = code === 'SCENARIO_UNKNOWN_KEY' || code === 'SCENARIO_WRONG_UNIT';
      const place = unknown ? document.placeOfKey(path) : document.placeOf(path);
      return {
        code,
        file,
        ...place,
        ...(path.length === 0 ? {} : { field: path.join('.') }),
        got,
        expected,
        ...(fix === undefined ? {} : { fix: /[.?!]$/.test(fix) ? fix : `${fix}.` }),
      };
    })
    .sort((one, other) => one.line! - other.line! || one.column! - other.column!);
}
