import { InputProblem, type ValueProblem } from '../common/InputProblem.ts';
import { isMapped } from '../weather/isMapped.ts';
import { mappingFromSchema } from '../weather/mappingFromSchema.ts';
import { weatherSchema } from '../weather/schema.ts';

/**
 * What a weather section lacks to be read, with paths from the root of the scenario.
 *
 * in: weather, the section; the schema has nothing against it
 */
export function weatherProblems(weather: unknown): ValueProblem[] {
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
