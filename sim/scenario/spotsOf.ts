import type { KeyPath } from '../common/document.ts';
import type { Report } from '../common/InputProblem.ts';
import { spotSchema } from '../spot/schema.ts';
import { spotParams } from '../spot/spotParams.ts';
import { isMap } from './paths.ts';
import type { ScenarioSpot } from './Scenario.ts';

/**
 * The spots of a scenario that can be made, with problems about the others.
 *
 * in: value, the scenario with its parts merged in; isSound, whether the schema found nothing at or below a path
 */
export function spotsOf(
  value: Record<string, unknown>,
  isSound: (section: KeyPath) => boolean,
  report: Report,
): ScenarioSpot[] {
  if (!isMap(value.spots)) return [];
  return Object.entries(value.spots).flatMap(([name, given]) => {
    const path = ['spots', name];
    if (!isSound(path)) return [];
    const section = spotSchema.parse(given);
    const params = spotParams(section, (problem) => report({ ...problem, path: [...path, ...problem.path] }));
    return params === undefined ? [] : [{ name, section, params }];
  });
}
