import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { RunResult } from './Trial.ts';

/**
 * Where runs that are compared differ in more than spots and lamps: weather, place, promise, currency, start.
 *
 * in: runs
 * out: sentences, none where they agree; sameWeather, whether all read the same weather file in the same way
 */
export function scenarioDifferences(runs: readonly RunResult[]): {
  sameWeather: boolean;
  differences: string[];
} {
  const [first, ...others] = runs;
  if (first === undefined || others.length === 0) return { sameWeather: true, differences: [] };
  const differs = (of: (run: RunResult) => unknown) => {
    const own = JSON.stringify(of(first));
    return others.some((run) => JSON.stringify(of(run)) !== own);
  };
  const each = (words: (run: RunResult) => string) =>
    runs.map((run) => `${run.scenario.name} ${words(run)}`).join('; ');
  const sameWeather = !differs(({ weather }) => weather);
  const weathers = each(
    ({ weather }) =>
      `${weather.hours} h from ${weather.first_utc}, file ${weather.sha256.slice(0, 8) || 'none'}`,
  );
  const places = each(
    ({ scenario: { site } }) =>
      `latitude ${site.latitude_deg}, longitude ${site.longitude_deg}, albedo ${site.albedo}`,
  );
  const sentences = [
    !sameWeather &&
      `DIFFERENT WEATHER (${weathers}): what differs between these scenarios may be the weather's doing, not the spot's or the lamp's`,
    sameWeather &&
      first.weather.sha256 === '' &&
      'Light was logged on the cells: whether the scenarios saw the same weather cannot be told',
    differs(({ scenario }) => scenario.site) && `DIFFERENT PLACES (${places})`,
    differs(({ scenario }) => scenario.promise) &&
      'DIFFERENT PROMISES: a failed night does not mean the same in each of these scenarios',
    differs(({ scenario }) => scenario.currency) &&
      'DIFFERENT CURRENCIES: prices are not converted, so those of one scenario say nothing beside those of another',
    differs(({ scenario }) => scenario.start) && 'DIFFERENT STARTS: the capacitors do not begin alike',
  ];
  return { sameWeather, differences: sentences.filter((sentence) => sentence !== false) };
}

/** Most bytes of a folder's name that every disk takes; common practice, no source. */
const LONGEST_FOLDER = 255;

/** The folder of a comparison: 'compare-', then the names of its scenarios. */
export function comparisonFolder(scenarios: readonly { name: string }[]): string {
  return `compare-${scenarios.map(({ name }) => name).join('+')}`;
}

/**
 * Refuses scenarios whose results cannot stand beside each other: of one name, or names too long for one folder.
 *
 * in: scenarios, by name and file
 * throws: InputProblem USAGE, one problem for each name that occurs again
 */
export function distinctNames(scenarios: readonly { name: string; file: string }[]): void {
  const problems: Problem[] = scenarios.flatMap(({ name, file }, k) => {
    const earlier = scenarios.slice(0, k).find((other) => other.name === name);
    if (earlier === undefined) return [];
    return [
      {
        code: 'USAGE',
        file: 'command line',
        got: `two scenarios named ${name}: ${earlier.file} and ${file}`,
        expected: 'a name of its own for each scenario that is compared',
        fix: earlier.file === file ? 'name the file once.' : `give one of them another name: in its file.`,
      },
    ];
  });
  const bytes = new TextEncoder().encode(comparisonFolder(scenarios)).length;
  if (bytes > LONGEST_FOLDER) {
    problems.push({
      code: 'USAGE',
      file: 'command line',
      got: `scenarios whose names make a folder of ${bytes} bytes`,
      expected: `${LONGEST_FOLDER} bytes or less, as disks take them`,
      fix: 'compare fewer at once, or give them shorter names: name: in each file.',
    });
  }
  if (problems.length > 0) throw new InputProblem(problems);
}
