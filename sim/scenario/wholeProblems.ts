import type { KeyPath } from '../common/document.ts';
import { InputProblem, type ValueProblem } from '../common/InputProblem.ts';
import { isMapped } from '../weather/isMapped.ts';
import { mappingFromSchema } from '../weather/mappingFromSchema.ts';
import { weatherSchema } from '../weather/schema.ts';
import { isMap } from './paths.ts';
import { readScenarioFile } from './scenarioFile.ts';

/**
 * What is wrong with a scenario beyond the single values: nothing to try, a promise or schedule without an end or
 * with two, no weather for a spot that needs some, files that cannot be read, weather that lacks a mapping.
 *
 * in: value, the scenario with its parts merged in, checked or not; folder, absolute, it lies in; isSound, whether the
 *   schema found nothing at or below a path
 */
export function wholeProblems(
  value: Record<string, unknown>,
  folder: string,
  isSound: (section: KeyPath) => boolean,
): ValueProblem[] {
  const problems: ValueProblem[] = [];
  for (const [key, example] of [
    ['spots', 'lawn: { cell_tilt_deg: 0 }'],
    ['lamps', 'single: { cell: { part: small-cell }, ... }'],
  ] as const) {
    if (!isMap(value[key]) || Object.keys(value[key]).length > 0) continue;
    problems.push(
      missing([key], 'an empty map', `at least one entry under ${key}`, `add one, as in ${example}.`),
    );
  }
  problems.push(...endProblems(value.promise, ['promise']));
  if (isMap(value.lamps)) {
    for (const [name, lamp] of Object.entries(value.lamps)) {
      if (!isMap(lamp) || !isMap(lamp.schedule)) continue;
      const path = ['lamps', name, 'schedule'];
      if (lamp.schedule.on === 'dark') problems.push(...senseProblems(lamp.schedule, path));
      else problems.push(...strayProblems(lamp.schedule, path), ...endProblems(lamp.schedule, path));
    }
  }
  const spots = isMap(value.spots) ? Object.entries(value.spots) : [];
  const dark = spots
    .filter(([, spot]) => isMap(spot) && spot.light_on_cell === undefined)
    .map(([name]) => name);
  if (value.weather === undefined && dark.length > 0) {
    problems.push(
      missing(
        ['weather'],
        'nothing',
        `hourly weather for ${dark.join(', ')}, which ${dark.length === 1 ? 'has' : 'have'} no light_on_cell`,
        'add weather: { file: ... }, or light_on_cell to every spot.',
      ),
    );
  }
  problems.push(...fileProblems(value, folder));
  if (value.weather !== undefined && isSound(['weather'])) problems.push(...weatherProblems(value.weather));
  return problems;
}

const problem =
  (code: ValueProblem['code']) =>
  (path: KeyPath, got: string, expected: string, fix: string): ValueProblem => ({
    code,
    path,
    got,
    expected,
    fix,
  });
const missing = problem('SCENARIO_MISSING_KEY');
const conflict = problem('SCENARIO_CONFLICT');

/** A lamp that switches on when it is dark must say how it senses that, and goes off when it is light or after hours. */
function senseProblems(schedule: Record<string, unknown>, path: KeyPath): ValueProblem[] {
  const problems: ValueProblem[] = [];
  const { sense } = schedule;
  if (sense === undefined) {
    problems.push(
      missing(
        [...path, 'sense'],
        'on: dark without sense',
        'how the lamp senses the dark',
        'add sense: { by: cell-voltage, night_below_V: 0.8, day_above_V: 1.0 }, or on: dusk.',
      ),
    );
  }
  for (const key of ['until', 'before_dawn_h']) {
    if (schedule[key] === undefined) continue;
    problems.push(
      conflict(
        [...path, key],
        `${key}: ${String(schedule[key])} with on: dark`,
        'hours, or nothing: such a lamp goes off when it is light again',
        `take ${key} away.`,
      ),
    );
  }
  if (!isMap(sense)) return problems;
  const [low, high] =
    sense.by === 'lux' ? ['night_below_lux', 'day_above_lux'] : ['night_below_V', 'day_above_V'];
  if (Number(sense[high]) <= Number(sense[low])) {
    problems.push(
      conflict(
        [...path, 'sense', high],
        `${high}: ${String(sense[high])} with ${low}: ${String(sense[low])}`,
        `${high} above ${low}`,
        'without that gap the lamp would flicker at dusk.',
      ),
    );
  }
  return problems;
}

function strayProblems(schedule: Record<string, unknown>, path: KeyPath): ValueProblem[] {
  if (schedule.sense === undefined) return [];
  return [
    conflict(
      [...path, 'sense'],
      `sense with on: ${String(schedule.on ?? 'dusk')}`,
      'on: dark beside sense',
      'write on: dark, or take sense away.',
    ),
  ];
}

function endProblems(section: unknown, path: KeyPath): ValueProblem[] {
  if (!isMap(section)) return [];
  const { hours, until } = section;
  if (hours !== undefined && until !== undefined) {
    return [
      conflict(
        [...path, 'until'],
        `both hours: ${String(hours)} and until: ${String(until)}`,
        'one of them',
        'take one away.',
      ),
    ];
  }
  if (hours !== undefined || until !== undefined) return [];
  return [
    missing(
      [...path, 'hours'],
      'neither hours nor until',
      'how long or until when',
      'add hours: 6, or until: dawn.',
    ),
  ];
}

/**
 * Files that a scenario names and that cannot be read.
 *
 * in: value, the scenario, checked or not; folder, absolute, it lies in
 */
function fileProblems(value: Record<string, unknown>, folder: string): ValueProblem[] {
  const problems: ValueProblem[] = [];
  const visit = (section: unknown, path: KeyPath): void => {
    if (!isMap(section)) return;
    for (const [key, below] of Object.entries(section)) {
      if (key === 'file' && typeof below === 'string' && below !== '') look(below, [...path, key]);
      else visit(below, [...path, key]);
    }
  };
  const look = (file: string, path: KeyPath): void => {
    try {
      readScenarioFile({ folder }, file);
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      const { code, got, fix } = error.problems[0]!;
      problems.push({
        code,
        path,
        got: `"${file}", ${got}`,
        expected: 'a file to read, its path relative to the scenario',
        fix,
      });
    }
  };
  visit(value.weather, ['weather']);
  visit(value.spots, ['spots']);
  return problems;
}

/**
 * What a weather section lacks to be read, with paths from the root of the scenario.
 *
 * in: weather, the section; the schema has nothing against it
 */
function weatherProblems(weather: unknown): ValueProblem[] {
  const section = weatherSchema.parse(weather);
  if (!isMapped(section)) return [];
  try {
    mappingFromSchema(section);
    return [];
  } catch (error) {
    if (!(error instanceof InputProblem)) throw error;
    return error.problems.map(({ field = 'weather', ...problem }) => ({
      ...problem,
      path: field.split('.'),
    }));
  }
}
