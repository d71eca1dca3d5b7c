import type { Comparison } from '../trial/Comparison.ts';

/**
 * The name of a spot, a lamp or a column in a comparison: with its scenario before it where there are several.
 *
 * in: comparison; scenario, its name; name
 */
export function comparedName({ scenarios }: Comparison, scenario: string, name: string): string {
  return scenarios.length === 1 ? name : `${scenario} ${name}`;
}
