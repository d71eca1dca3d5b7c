import type { KeyPath } from '../common/document.ts';
import { InputProblem, type Report } from '../common/InputProblem.ts';
import { weatherSchema } from '../weather/schema.ts';
import { lacksOfMapping } from '../weather/statedWeather.ts';
import { entriesOf, isMap } from './paths.ts';
import { readScenarioFile } from './scenarioFile.ts';
import { bareValue } from './shownValue.ts';

/**
 * What is wrong with a scenario beyond the single values: nothing to try, a promise or schedule without an end or
 * with two, no weather for a spot that needs some, files that cannot be read, weather that lacks a mapping.
 *
 * in: value, the scenario with its parts merged in, checked or not; folder, absolute, it lies in; isSound, whether the
 *   schema found nothing at or below a path; report, takes what is wrong
 */
export function checkWhole(
  value: Record<string, unknown>,
  folder: string,
  isSound: (section: KeyPath) => boolean,
  report: Report,
): void {
  for (const [key, example] of [
    ['spots', 'lawn: { cell_tilt_deg: 0 }'],
    ['lamps', 'single: { cell: { part: small-cell }, ... }'],
  ] as const) {
    if (!isMap(value[key]) || Object.keys(value[key]).length > 0) continue;
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'an empty map',
      expected: `at least one entry under ${key}`,
      fix: `add one, as in ${example}.`,
    });
  }
  checkEnd(value.promise, ['promise'], report);
  for (const [name, lamp] of entriesOf(value.lamps)) {
    if (isMap(lamp) && isMap(lamp.schedule))
      checkSchedule(lamp.schedule, ['lamps', name, 'schedule'], report);
  }
  const dark = entriesOf(value.spots)
    .filter(([, spot]) => isMap(spot) && spot.light_on_cell === undefined)
    .map(([name]) => name);
  if (value.weather === undefined && dark.length > 0) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['weather'],
      got: 'nothing',
      expected: `hourly weather for ${dark.join(', ')}, which ${dark.length === 1 ? 'has' : 'have'} no light_on_cell`,
      fix: 'add weather: { file: ... }, weather: { climate: ... } with the means of the months, or light_on_cell to every spot.',
    });
  }
  if (isMap(value.weather)) checkStated(value.weather, report);
  checkFiles(value, folder, report);
  if (isMap(value.weather) && value.weather.file !== undefined && isSound(['weather']))
    checkWeather(value.weather, report);
}

/** What a schedule lacks, or has too much of; path of it in the scenario. */
export function checkSchedule(schedule: Record<string, unknown>, path: KeyPath, report: Report): void {
  if (schedule.on === 'dark') {
    checkSense(schedule, path, report);
    return;
  }
  if (schedule.sense !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...path, 'sense'],
      got: `sense with on: ${bareValue(schedule.on ?? 'dusk')}`,
      expected: 'on: dark beside sense',
      fix: 'write on: dark, or take sense away.',
    });
  }
  checkEnd(schedule, path, report);
}

/** A lamp that switches on when it is dark must say how it senses that, and goes off when it is light or after hours. */
function checkSense(schedule: Record<string, unknown>, path: KeyPath, report: Report): void {
  const { sense } = schedule;
  if (sense === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [...path, 'sense'],
      got: 'on: dark without sense',
      expected: 'how the lamp senses the dark',
      fix: 'add sense: { by: cell-voltage, night_below_V: 0.8, day_above_V: 1.0 }, or on: dusk.',
    });
  }
  for (const key of ['until', 'before_dawn_h']) {
    if (schedule[key] === undefined) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...path, key],
      got: `${key}: ${bareValue(schedule[key])} with on: dark`,
      expected: 'hours, or nothing: such a lamp goes off when it is light again',
      fix: `take ${key} away.`,
    });
  }
  if (!isMap(sense)) return;
  const [low, high] =
    sense.by === 'lux' ? ['night_below_lux', 'day_above_lux'] : ['night_below_V', 'day_above_V'];
  const [above, below] = [sense[high], sense[low]];
  if (typeof above === 'number' && typeof below === 'number' && above <= below) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...path, 'sense', high],
      got: `${high}: ${bareValue(sense[high])} with ${low}: ${bareValue(sense[low])}`,
      expected: `${high} above ${low}`,
      fix: 'without that gap the lamp would flicker at dusk.',
    });
  }
}

function checkEnd(section: unknown, path: KeyPath, report: Report): void {
  if (!isMap(section)) return;
  const { hours, until } = section;
  if (hours !== undefined && until !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...path, 'until'],
      got: `both hours: ${bareValue(hours)} and until: ${bareValue(until)}`,
      expected: 'one of them',
      fix: 'take one away.',
    });
  } else if (hours === undefined && until === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [...path, 'hours'],
      got: 'neither hours nor until',
      expected: 'how long or until when',
      fix: 'add hours: 6, or until: dawn.',
    });
  }
}

/**
 * Files that a scenario names and that cannot be read.
 *
 * in: value, the scenario, checked or not; folder, absolute, it lies in
 */
function checkFiles(value: Record<string, unknown>, folder: string, report: Report): void {
  const visit = (section: unknown, path: KeyPath): void => {
    for (const [key, below] of entriesOf(section)) {
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
      const expected = 'a file to read, its path relative to the scenario';
      report({ code, path, got: `"${file}", ${got}`, expected, fix });
    }
  };
  visit(value.weather, ['weather']);
  visit(value.spots, ['spots']);
  visit(value.parts, ['parts']);
}

/** Weather needs a file, or a climate alone. */
function checkStated({ file, climate, ...others }: Record<string, unknown>, report: Report): void {
  const [beside] = Object.keys(others);
  if (file !== undefined || (climate !== undefined && beside === undefined)) return;
  report({
    code: 'SCENARIO_MISSING_KEY',
    path: ['weather', 'file'],
    got: beside === undefined ? 'nothing' : `${beside} without a file`,
    expected: 'a file with hourly weather, or a climate alone',
    fix: 'add file: ..., or climate: { irradiation_kWh_m2_day: [...], air_degC: [...] }.',
  });
}

/**
 * What a weather section lacks to be read, with paths from the root of the scenario.
 *
 * in: weather, the section; the schema has nothing against it
 */
function checkWeather({ climate: _, ...file }: Record<string, unknown>, report: Report): void {
  for (const { field = 'weather', ...problem } of lacksOfMapping(weatherSchema.parse(file))) {
    report({ ...problem, path: field.split('.') });
  }
}
